import type { AskedChoice, DebriefDocument, Edit, MomentChoice } from "../contract/debrief.ts";
import type { Film, FilmItem } from "../contract/film.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import { choicesOn } from "./choicesOn.ts";

/**
 * The edits that follow from a coach's answer. `to`: index of the moment (for a reason: of the break) it belongs to;
 * null: let it go.
 * @param shown the film in force, from which a card without its words is left out
 */
export function settleAsked(
  document: DebriefDocument,
  reading: Pick<Reading, "moments" | "breaks">,
  shown: Film,
  asked: AskedChoice,
  to: number | null,
  label: string,
): Edit[] {
  switch (asked.what) {
    case "choice":
      return [{ part: "choices", value: choicesWith(document.choices, reading.moments, asked.choice, to), label }];
    case "break": {
      const { override } = asked;
      const rest = document.overrides.filter(
        (one) => one.what !== "break" || one.startS !== override.startS || one.endS !== override.endS,
      );
      if (to === null) return [{ part: "overrides", value: rest, label }];
      const { startS, endS } = reading.breaks[to]!;
      return [{ part: "overrides", value: [...rest, { ...override, startS, endS }], label }];
    }
    case "part": {
      const { film } = document;
      if (film === null) return [];
      const moment = to === null ? null : reading.moments[to]!;
      const items = film.items.flatMap((item) =>
        item.id === asked.itemId ? itemOn(item, to, moment, isShown(shown, item)) : [item],
      );
      return [
        { part: "film", value: { ...film, items }, label },
        { part: "filmSetBy", value: "coach", label },
      ];
    }
  }
}

function isShown(shown: Film, { id }: FilmItem): boolean {
  return shown.items.some((item) => item.id === id);
}

/** A part on another moment, or on none; a card that says nothing without its moment goes with it. */
function itemOn(item: FilmItem, to: number | null, moment: Moment | null, shown: boolean): FilmItem[] {
  if (moment !== null) {
    const { kind, startS, endS } = moment;
    return [{ ...item, moment: to, momentKey: { kind, startS, endS } }];
  }
  if (item.type === "card" && !shown) return [];
  const { momentKey: _, ...rest } = item;
  return [{ ...rest, moment: null }];
}

/** The choices with one put on a moment; what was said about that moment already stands, and the rest is taken over. */
function choicesWith(
  choices: readonly MomentChoice[],
  moments: readonly Moment[],
  asked: MomentChoice,
  to: number | null,
): readonly MomentChoice[] {
  const rest = choices.filter((one) => one !== asked);
  if (to === null) return rest;
  const { kind, startS, endS } = moments[to]!;
  const there = choicesOn(moments, choices).of[to];
  const said = there ?? asked;
  return [
    ...rest.filter((one) => one !== there),
    {
      kind,
      startS,
      endS,
      keep: said.keep ?? asked.keep,
      span: said.span ?? asked.span,
      name: said.name ?? asked.name,
      note:
        there && there.note !== null && asked.note !== null
          ? `${there.note}\n${asked.note}`
          : (said.note ?? asked.note),
    },
  ];
}

/**
 * A film edited from the one in force, with what that one left out for want of a sure moment: an edit must not lose the
 * words of parts that are still asked about.
 */
export function withAskedParts(
  edited: Film,
  document: Pick<DebriefDocument, "film">,
  shown: Film,
  asked: readonly AskedChoice[],
): Film {
  let items = edited.items;
  const before = document.film?.items ?? [];
  before.forEach((original, at) => {
    if (!asked.some((one) => one.what === "part" && one.itemId === original.id)) return;
    const now = items.find(({ id }) => id === original.id);
    if (now?.type === "shot" && original.type === "shot" && now.captions.length === 0) {
      const back = {
        ...now,
        captions: original.captions,
        ...(original.made === undefined ? {} : { made: original.made }),
      };
      items = items.map((item) => (item === now ? back : item));
    } else if (now === undefined && !isShown(shown, original)) {
      const place = before.slice(0, at).findLastIndex(({ id }) => items.some((item) => item.id === id));
      const after = place < 0 ? -1 : items.findIndex(({ id }) => id === before[place]!.id);
      items = [...items.slice(0, after + 1), original, ...items.slice(after + 1)];
    }
  });
  return items === edited.items ? edited : { ...edited, items };
}
