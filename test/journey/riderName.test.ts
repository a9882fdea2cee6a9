// What a rider is called on the picture, where more than one ride is there to be told apart.
import { expect, it } from "vitest";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import { filmWishes } from "../../main/journey/film.ts";

type Input = Parameters<typeof filmWishes>[0];

function nameOf(rider: string | null, rides: number, fileName: string): string | null {
  const media = Array.from({ length: rides }, () => ({ kind: "ride" }));
  const document = { plan: { rider }, media, settings: {}, choices: [], words: {} } as unknown as DebriefDocument;
  return filmWishes({ document, judged: { ride: { fileName } }, clips: [], lineup: null } as unknown as Input)
    .riderName;
}

it.each([
  ["the plan's name", "Ines Falk", 2, "sunday.fit", "Ines Falk"],
  ["none that nobody said: a file is called `ride`, no rider is", null, 2, "ride.fit.gz", null],
  ["none for one who rides alone", "Ines Falk", 1, "sunday.fit", null],
])("%s", (_, rider, rides, fileName, expected) => expect(nameOf(rider, rides, fileName)).toBe(expected));
