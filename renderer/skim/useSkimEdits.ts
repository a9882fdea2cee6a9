import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { MomentChoice } from "../../main/contract/debrief.ts";
import type { Break, BreakOverride, GivenReason, Moment, Override } from "../../main/contract/reading.ts";
import { type Plan, type Skill, withTick } from "../../main/contract/plan.ts";
import { skillWords } from "../../overlay/words/skillWords.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { desk } from "../desk/desk.ts";
import { skim as words } from "../words/skim.ts";
import type { SkimMoments } from "./useSkimMoments.ts";
import type { OwnMomentSaid } from "./OwnMoment.tsx";
import { withChoice, withoutChoice } from "./momentChoices.ts";
import { withOverride, withoutOverride } from "./overrides.ts";
import { useEdits } from "./useEdits.ts";

export type SkimEdits = ReturnType<typeof useSkimEdits>;

/** What a coach says about moments, breaks and values, each one edit that can be undone. */
export function useSkimEdits(debrief: DebriefView, here: () => number | null, hold: SkimMoments["hold"]) {
  const { document: doc, momentWords, momentChoices } = debrief;
  const reading = debrief.reading!;
  const { edit, call, failure } = useEdits();
  const sentence = (moment: Moment) => momentWords[reading.moments.indexOf(moment)] ?? moment.kind;
  const said = (moment: Moment) => momentChoices[reading.moments.indexOf(moment)] ?? null;
  const change = (moment: Moment, next: Partial<MomentChoice>, label: string) =>
    void edit("choices", withChoice(doc.choices, moment, said(moment), next), label);
  const keep = (moment: Moment, value: boolean | null) => {
    const label = words.labels[value === null ? "open" : value ? "keep" : "drop"](sentence(moment));
    const choices = withChoice(doc.choices, moment, said(moment), { keep: value });
    void call(() =>
      desk.chooseMoment({ part: "choices", value: choices, label }, reading.moments.indexOf(moment), debrief.edit),
    );
  };
  const edge = (moment: Moment, which: "startS" | "endS") => {
    const atS = here();
    if (atS === null) return;
    const span = {
      ...(said(moment)?.span ?? { startS: moment.startS, endS: moment.endS }),
      [which]: Math.round(atS * 10) / 10,
    };
    if (span.endS > span.startS) change(moment, { span }, words.labels.span(sentence(moment)));
  };
  const overrule = (override: Override, label: string) =>
    void edit("overrides", withOverride(doc.overrides, override), label);
  const back = (gone: Parameters<typeof withoutOverride>[1], label: string) =>
    void edit("overrides", withoutOverride(doc.overrides, gone), label);
  const reason = ({ startS, endS }: Break, set: GivenReason) =>
    overrule({ what: "break", startS, endS, set, reason: null }, words.labels.break(clockText(startS)));
  const computedReason = (override: BreakOverride) => back(override, words.labels.break(clockText(override.startS)));
  const removeOwn = async (moment: Moment, ownIndex: number) => {
    // What was said about it goes with it, or it would be asked about.
    const choice = said(moment);
    const label = words.labels.removed(moment.kind);
    if (choice !== null && !(await edit("choices", withoutChoice(doc.choices, choice), label))) return;
    await edit(
      "ownMoments",
      doc.ownMoments.filter((_, index) => index !== ownIndex),
      label,
    );
  };
  const addOwn = (own: OwnMomentSaid, atS: number) => {
    const startS = Math.round(atS * 10) / 10;
    const moment: Moment = {
      kind: own.kind,
      startS,
      endS: startS + own.lengthS,
      reason: own.words,
      excused: null,
      rank: reading.moments.length + 1,
      numbers: {},
      setBy: "coach",
      coachOnly: false,
    };
    void edit("ownMoments", [...doc.ownMoments, moment], words.labels.own(own.kind)).then(
      (done) => done && hold({ kind: moment.kind, startS, own: true }),
    );
  };
  const practised = (skill: Skill, done: number | null) =>
    void edit("plan", withSkill(doc.plan, skill, done), words.labels.skill(skillWords(WINDOW_LANGUAGE).names[skill]));
  return {
    call,
    practised,
    failure,
    sentence,
    said,
    change,
    keep,
    edge,
    overrule,
    back,
    reason,
    computedReason,
    removeOwn,
    addOwn,
  };
}

/** The plan with how often a skill was done; null: not said. */
function withSkill(plan: Plan, skill: Skill, done: number | null): Plan {
  return { ...plan, skills: withTick(plan.skills ?? [], skill, done) };
}
