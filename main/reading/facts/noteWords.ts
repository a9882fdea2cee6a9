import type { HoldTopic } from "../../contract/debriefFacts.ts";

/** The parts of a list written with commas. */
const listed = (text: string): string[] => text.split(",").map((one) => one.trim());

/**
 * Words of a rider's note that come before any training, in English and German, as beginnings of words or phrases; the
 * note is compared in lower case. Too many are better than too few: a word that is there for nothing costs one question
 * to the coach. A star before a word: it may stand inside a longer one (`Kopfschmerzen`). Common practice, no source.
 */
export const HOLD_WORDS: Readonly<Record<Exclude<HoldTopic, "unclear">, readonly string[]>> = {
  illness: listed(`
    ill, illness, sick, fever, feverish, temperature of, flu, influenza, had a cold, have a cold, with a cold,
    caught a cold, a cold coming, head cold, cough, coughing, sore throat, infection, infected, virus, viral,
    covid, corona, bronchitis, pneumonia, sinus, vomit, vomiting, threw up, nausea, nauseous, diarrhoea,
    diarrhea, stomach bug, shivering, chills, swollen glands, unwell, under the weather, antibiotic, krank,
    krankheit, erkrankt, *fieber, fiebrig, grippe, grippal, erkält, schnupfen, husten, halsschmerz, halsweh,
    *infekt, *entzünd, lungenentzünd, übel, übelkeit, erbrochen, erbrechen, durchfall, schüttelfrost, unwohl,
    magen-darm, magenverstimmung, nicht gesund, not well, not healthy, not recovered, angeschlagen
  `),
  heart: listed(`
    chest, palpitation, heart racing, heart was racing, heart is racing, heart pounding,
    pulse racing, racing heart, heart raced, heart skipped, skipped beat, arrhythmia,
    irregular heart, irregular pulse, fainted, faint, fainting, passed out, blacked out, collapsed, dizzy,
    dizziness, light-headed, lightheaded, short of breath, shortness of breath, couldn't breathe,
    could not breathe, breathless, tight chest, atrial, fibrillation, myocarditis, pericarditis,
    pressure on my chest, left arm, brust, herzrasen, herzstolpern, herzklopfen, herzrhythmus, vorhofflimmern,
    herzmuskel, ohnmacht, ohnmächtig, umgekippt, schwindel, schwindlig, atemnot, keine luft, luft weg,
    kurzatmig, kollabiert, kollaps, linker arm, linken arm
  `),
  injury: listed(`
    injur, crash, crashed, fell, fall, fallen, accident, concussion, hit my head, fracture, broke my, broken,
    sprain, strain, torn, tendon, swollen, swelling, pain, painful, hurt, hurts, aching knee, sore knee, knee,
    numb, numbness, bleeding, verletz, sturz, gestürzt, gefallen, *unfall, gehirnerschütterung,
    kopf angeschlagen, gebrochen, bruch, verstaucht, gezerrt, zerrung, gerissen, sehne, geschwollen,
    schwellung, *schmerz, weh, knie, taub, taubheit, blutet, geblutet
  `),
  medicine: listed(`
    medicine, medication, medicated, tablet, pill, painkiller, ibuprofen, paracetamol, aspirin, antibiotic,
    beta blocker, beta-blocker, betablocker, inhaler, cortisone, steroid, antihistamine, vaccin, vaccine, jab,
    injection, drug, surgery, operation, dentist, anaesthe, anesthe, blood donation, gave blood, donated blood,
    medikament, arznei, tablette, schmerzmittel, antibiotik, kortison, cortison, spray, impfung, geimpft,
    spritze, operiert, zahnarzt, narkose, blutspende, blut gespendet
  `),
  sleep: listed(`
    no sleep, little sleep, hardly slept, barely slept, slept badly, slept poorly, bad sleep, poor sleep,
    sleepless, not enough sleep, too little sleep, bad night, short night, awake all night, night shift,
    up all night, didn't sleep, did not sleep, couldn't sleep, could not sleep, insomnia, exhausted, worn out,
    jet lag, jetlag, poorly slept, not slept, kaum geschlafen, schlecht geschlafen, wenig geschlafen,
    wenig schlaf, kein schlaf, schlaflos, kurze nacht, schlechte nacht, nachtschicht, nicht geschlafen,
    zu wenig schlaf, erschöpft, übermüdet, todmüde, ausgelaugt
  `),
  food: listed(`
    bonk, bonked, hunger flat, ran out of food, no food, no breakfast, nothing to eat, ate nothing, not eaten,
    hadn't eaten, didn't eat, did not eat, fasted, fasting, too little food, not enough food, hungry, starving,
    empty stomach, dehydrated, ran out of water, no water, didn't drink, did not drink, nothing to drink,
    skipped breakfast, skipped lunch, diet, not enough to eat, not enough to drink, too little to eat,
    too little to drink, little food, hungerast, nichts gegessen, kein frühstück, ohne frühstück, nüchtern,
    zu wenig gegessen, wenig gegessen, hungrig, nichts getrunken, zu wenig getrunken, wenig getrunken,
    dehydriert, leerer magen, leerem magen, fasten, gefastet, diät, nichts zu essen, nichts zu trinken,
    kein wasser, nicht gegessen, nicht getrunken
  `),
};

/** Words that speak of illness where illness is asked for, and elsewhere may speak of the day or the road. */
export const ILLNESS_ASKED: readonly string[] = listed(`
  a cold, cold, colds, sniffle, runny nose, nose, throat, headache, migraine, stomach, tummy, allergy, allergies,
  hay fever, temperature, getting over, coming down, kopfweh, bauchweh, magen, bauch, hals, nase, allergie,
  heuschnupfen, migräne, verkühl, im anflug, im anmarsch
`);

/** What turns a word round when it stands shortly before it in the same clause. */
export const NEGATIONS: readonly string[] = listed(`
    no, not, none, never, without, nothing, isn't, wasn't, didn't, don't, haven't, hadn't, no longer, free of,
    nor, neither, zero, kein, keine, keinen, keiner, keinerlei, nicht, nie, niemals, ohne, nichts, weder, null
  `);

/** Answers that say there is nothing to say, as the whole of a field. */
export const NOTHING_TO_SAY: readonly string[] = listed(`
    no, none, nothing, no illness, no medicine, nil, n/a, na, -, –, healthy, fine, well, all good, good, ok,
    okay, all fine, fit, not ill, not sick, not that i know, nope, 0, all well, all ok, nein, keine, kein,
    nichts, gesund, gut, alles gut, keine krankheit, keine medikamente, nicht krank, alles ok
  `);

/** Signs that say the same without words. */
export const HOLD_SIGNS: readonly (readonly [RegExp, HoldTopic])[] = [
  [/[\u{1F912}\u{1F915}\u{1F922}\u{1F92E}\u{1F927}\u{1F637}]/u, "illness"],
  [/[\u{1F48A}\u{1F489}]/u, "medicine"],
  [/[\u{1FA79}\u{1FA78}]/u, "injury"],
];
