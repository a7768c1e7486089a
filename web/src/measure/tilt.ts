/// How far the long edge of the phone points above the level, as its sensors tell it.

export type Asked = "granted" | "denied";

/** Where the angles come from; a test brings its own. */
export interface TiltSource {
  /** Whether this browser has such sensors at all, and may be asked here. */
  readonly state: "there" | "absent" | "insecure";
  /** Ask the person, where the system wants that; only within a tap. */
  ask(): Promise<Asked>;
  /** Hand over every angle [degrees above level] as it comes; returns how to stop. */
  listen(angle: (deg: number) => void): () => void;
}

interface Permission {
  requestPermission?: () => Promise<Asked>;
}

const DEG_PER_RAD = 180 / Math.PI;

/**
 * Elevation of the phone's long edge from the angle `beta` [degrees] of a device orientation event.
 * The event turns the phone by beta about its short edge before it rolls it by gamma about the long
 * one, and the roll leaves the long edge where it is. Past the vertical beta runs on to 180.
 */
export function elevationDeg(beta: number): number {
  return Math.asin(Math.sin(beta / DEG_PER_RAD)) * DEG_PER_RAD;
}

/** The sensors of this browser. */
export function browserTilt(page: Window & typeof globalThis = window): TiltSource {
  const kind = page.DeviceOrientationEvent as
    (typeof DeviceOrientationEvent & Permission) | undefined;
  const state = kind === undefined ? "absent" : page.isSecureContext ? "there" : "insecure";
  return {
    state,
    async ask() {
      if (!kind?.requestPermission) return "granted";
      try {
        return (await kind.requestPermission()) === "granted" ? "granted" : "denied";
      } catch {
        return "denied";
      }
    },
    listen(angle) {
      const hear = ({ beta }: DeviceOrientationEvent) => {
        if (beta !== null && Number.isFinite(beta)) angle(elevationDeg(beta));
      };
      page.addEventListener("deviceorientation", hear);
      return () => page.removeEventListener("deviceorientation", hear);
    },
  };
}
