/// Shares of an axis, as the engine gives them, into CSS lengths.

function held(share: number): number {
  return Math.min(1, Math.max(0, share));
}

/** Where a share lies from the start of the axis; of several, the first of them. */
export function place(...shares: readonly number[]): string {
  return `${(100 * held(Math.min(...shares))).toFixed(2)}%`;
}

/** How long it is between two shares. */
export function length(one: number, other: number): string {
  return `${(100 * Math.abs(held(other) - held(one))).toFixed(2)}%`;
}
