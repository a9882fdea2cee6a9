// Debriefs to try things on.
import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import { chooseFilm } from "../../main/film/chooseFilm.ts";
import { filmShape } from "../../main/film/filmShape.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { madeClip, madeLineup, madePlan, madeReading, madeRide, madeStory } from "../film/madeReading.ts";

/** A new folder, with what names may hold. */
export const debriefFolder = (): Promise<string> => mkdtemp(join(tmpdir(), "debrief ü% "));

/** A debrief with a film of one clip. */
export function withFilm(): DebriefDocument {
  const ride = madeRide();
  const plan = madePlan();
  const reading = madeReading(ride);
  const clips = [madeClip("a", 240)];
  const film = chooseFilm({
    ride,
    plan,
    reading,
    clips,
    blocks: [],
    story: madeStory(ride, plan, reading),
    lineup: madeLineup({ a: 1740 }),
    lengthS: 120,
    shape: filmShape(clips, "share"),
    language: "en",
    titleLines: [],
    wishes: [],
    acceptUnsure: false,
    riderName: null,
    forWhom: "athlete",
    asPercent: false,
  });
  return {
    ...newDebrief(plan, [{ id: "a", kind: "clip", path: "clips/a.mp4", bytes: 10, fingerprint: "f" }], "ride1"),
    film,
  };
}

/** The Failure that a job rejects with. */
export async function failureOf(job: Promise<unknown>): Promise<Failure> {
  const error = await job.then(
    () => null,
    (caught: unknown) => caught,
  );
  expect(error).toBeInstanceOf(Failure);
  return error as Failure;
}
