/// One driving under way: the count, its stage, and what of it is kept.
import type { DriveTable } from "../engine/answers.ts";
import type { TreeState } from "../journal/state.ts";
import { app } from "../shell/app.svelte.ts";
import type { Ground } from "./changes.ts";
import { moved, standingAt, tapsFor } from "./count.ts";
import { DOES_NOT_GO, END, START, type Driving } from "./drive_log.ts";
import { keepCount, keptCount, thisTab } from "./kept_count.ts";

/** Begin: the tree is loaded from here on. False: it was not kept. */
export async function begin(
  tree: TreeState,
  device: string | null,
  { mark }: Ground,
): Promise<boolean> {
  const loaded = await app.record("state", tree.id, { state: "loaded" });
  return loaded && app.record("drive", tree.id, { stage: START, turns: 0, device, ground: mark });
}

export class DrivingOnScreen {
  taps = $state(0);
  /** False after a restart: taps since the last stage are lost, and a person sets the count. */
  sure = $state(true);
  private cached = $state.raw<DriveTable | null>(null);
  private readonly shelf = thisTab();

  constructor(
    private readonly tree: string,
    private readonly driving: Driving,
    begunHere: boolean,
  ) {
    const kept = keptCount(this.shelf, tree, driving.start);
    this.cached = kept?.table ?? null;
    if (kept) this.taps = kept.taps;
    else this.sure = begunHere;
  }

  /** The table at hand: a fresh one is kept with the count. */
  tableFrom(fresh: DriveTable | null): DriveTable | null {
    return fresh ?? this.cached;
  }

  /** Take in a fresh table; a count that was lost begins at the last stage that was kept. */
  take(table: DriveTable): void {
    this.cached = table;
    if (!this.sure && this.taps === 0) this.taps = tapsFor(table, this.driving.turns);
    if (this.sure) this.keep();
  }

  /** The count that a person has set: kept as the stage it stands for. */
  confirm(table: DriveTable): void {
    this.sure = true;
    this.keep();
    const row = standingAt(table, this.taps)?.row;
    if (row) void this.reach(row.stage, row.turns);
  }

  /** One tap more or less; a new stage is kept in the journal. */
  move(table: DriveTable, by: 1 | -1): void {
    const before = standingAt(table, this.taps);
    this.taps = moved(table, this.taps, by);
    if (!this.sure) return;
    this.keep();
    const after = standingAt(table, this.taps);
    if (!before || !after || before.row.stage === after.row.stage) return;
    void this.reach(after.row.stage, after.row.turns);
  }

  reach(stage: string, turns: number | null): Promise<boolean> {
    return this.write(stage, turns);
  }

  /** It goes: the tree is down. */
  async goes(turns: number | null): Promise<boolean> {
    return (
      (await this.write(END, turns, { went: true })) &&
      app.record("state", this.tree, { state: "down" })
    );
  }

  doesNotGo(turns: number | null): Promise<boolean> {
    return this.write(DOES_NOT_GO, turns);
  }

  /** Given up without going: the last look comes again. */
  giveUp(turns: number | null): Promise<boolean> {
    return this.write(END, turns, { went: false });
  }

  private write(stage: string, turns: number | null, more: { went?: boolean } = {}) {
    const { device } = this.driving;
    return app.record("drive", this.tree, {
      stage,
      ...(turns === null ? {} : { turns }),
      device,
      ...more,
    });
  }

  private keep(): void {
    const { start } = this.driving;
    keepCount(this.shelf, this.tree, { start, taps: this.taps, table: this.cached });
  }
}
