/// The van as the settings show it: what is in it, and a kit read in from a file.
import type { Answer } from "../engine/answers.ts";
import type { Fault, Outcome } from "../engine/engine.ts";
import type { Body, Draft, Json } from "../journal/event.ts";
import { plainText } from "../journal/plain_text.ts";

export interface VanDevice {
  readonly name: string;
  readonly kind: string;
}

/** Devices of a kit by name; what is no device with a name is left to the engine to find. */
export function devicesOf(kit: Body | null): VanDevice[] {
  const devices = kit?.["device"];
  if (!Array.isArray(devices)) return [];
  return devices.flatMap((device) => {
    const [name, kind] = [wordOf(device, "name"), wordOf(device, "kind")];
    return name ? [{ name, kind }] : [];
  });
}

function wordOf(device: Json, key: string): string {
  const table = device !== null && typeof device === "object" && !Array.isArray(device);
  const word = table ? device[key] : null;
  return typeof word === "string" ? word : "";
}

const LONGEST_NAME = 60;

/** A van is called by its file: van-2.toml is "van-2". */
export function nameOfFile(file: string): string {
  return plainText(file.replace(/\.[a-z0-9]{1,5}$/i, ""), LONGEST_NAME) || "kit";
}

export type KitRead =
  | { readonly kind: "kit"; readonly draft: Draft; readonly devices: number }
  | { readonly kind: "refused"; readonly faults: readonly Fault[] };

/** What a kit file holds, as the entry that puts it into force; or every fault that the engine finds. */
export async function readKit(
  toml: string,
  file: string,
  ask: (question: "kit", request: { toml: string }) => Promise<Outcome<Answer<"kit">>>,
): Promise<KitRead> {
  const outcome = await ask("kit", { toml });
  if (outcome.kind === "superseded") return { kind: "refused", faults: [] };
  if (outcome.kind === "faults") return { kind: "refused", faults: outcome.faults };
  const { kit, devices } = outcome.answer;
  const body = { name: nameOfFile(file), kit };
  return { kind: "kit", draft: { kind: "kit", tree: null, body }, devices: devices.length };
}
