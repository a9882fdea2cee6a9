import { Failure } from "../contract/failure.ts";
import { PRESETS, type Preset, type PresetName, type SlowSound } from "../contract/presets.ts";
import type { Tools } from "../contract/tools.ts";
import { chooseEncoder, type EncoderWish } from "../render/chooseEncoder.edge.ts";
import { leastSizeMb, type VideoEncoder } from "../render/encoding.ts";
import type { Note } from "../contract/notice.ts";

/** What a person asks of one output; not kept in the debrief. */
export interface OutputWish {
  /** Size that the file must not exceed, MB (10^6 bytes); null: the preset's own rule. */
  readonly sizeMb: number | null;
  readonly encoder: EncoderWish;
  /** Null: as the debrief's settings say. */
  readonly slowSound: SlowSound | null;
  /** Keeps nothing of what an earlier render has finished. */
  readonly anew: boolean;
}

/** Nothing asked for. */
export const PLAIN_OUTPUT: OutputWish = { sizeMb: null, encoder: "auto", slowSound: null, anew: false };

export interface OutputChoice {
  readonly preset: Preset;
  readonly encoder: VideoEncoder;
  /** Encoders that did not work and what took their place. */
  readonly warnings: readonly Note[];
}

/**
 * Preset and encoder of a film of this length, the encoder proven.
 *
 * @throws Failure usage where the film cannot be made so small, tool-failed, tool-missing
 */
export async function outputFor(
  name: PresetName,
  wish: OutputWish,
  durationS: number,
  tools: Tools,
): Promise<OutputChoice> {
  const preset = { ...PRESETS[name], ...(wish.sizeMb === null ? {} : { sizeMb: wish.sizeMb }) };
  if (wish.sizeMb !== null && wish.sizeMb < leastSizeMb(preset, durationS)) {
    throw new Failure("film-does-not-fit", { durationS, sizeMb: wish.sizeMb, leastMb: leastSizeMb(preset, durationS) });
  }
  const { encoder, notes } = await chooseEncoder(wish.encoder, tools);
  return { preset, encoder, warnings: notes };
}
