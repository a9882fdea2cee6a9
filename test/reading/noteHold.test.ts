// Which notes of a rider come before training, in both languages.
import { describe, expect, test } from "vitest";
import type { RiderNote } from "../../main/contract/plan.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { noteHold } from "../../main/reading/facts/noteHold.ts";

const note = (field: keyof RiderNote, text: string): RiderNote => ({ ...defaultPlan().note, [field]: text });

describe("a note of the rider", () => {
  test.each<[keyof RiderNote, string]>([
    ["feel", "I had a fever yesterday"],
    ["feel", "not great, chest felt tight"],
    ["feel", "no fever, but a sore throat"],
    ["feel", "Fieber war gestern noch da"],
    ["feel", "ohne Fieber, aber starke Kopfschmerzen"],
    ["feel", "Brustschmerzen beim Treten"],
    ["feel", "mir war schwindlig"],
    ["feel", "heart was racing at the top"],
    ["feel", "felt faint after the climb"],
    ["feel", "not without pain"],
    ["illness", "getting over the flu"],
    ["illness", "Erkältung"],
    ["illness", "a bit of something"],
    ["illness", "irgendwas im Anflug"],
    ["medicine", "Ibuprofen"],
    ["medicine", "blood pressure stuff"],
    ["medicine", "Betablocker seit Montag"],
    ["kit", "crashed on the gravel, knee hurts"],
    ["sleep", "4 h"],
    ["sleep", "5,5 Stunden"],
    ["sleep", "hardly slept"],
    ["sleep", "schlecht geschlafen"],
    ["feel", "slept 3 hours"],
    ["foodAndDrink", "no breakfast"],
    ["foodAndDrink", "nichts gegessen"],
    ["foodAndDrink", "ran out of food at half way"],
    ["feel", "\u{1F912}\u{1F912}"],
    ["illness", "\u0645\u0631\u064A\u0636 \u0627\u0644\u064A\u0648\u0645"],
    ["feel", "x".repeat(10_001)],
  ])("%s: %s holds", (field, text) => {
    expect(noteHold(note(field, text))).not.toBeNull();
  });

  test.each<[keyof RiderNote, string]>([
    ["feel", "no fever"],
    ["feel", "No chest pain, no dizziness."],
    ["feel", "strong all day, legs good"],
    ["feel", "kein Fieber und keine Schmerzen"],
    ["feel", "schmerzfrei"],
    ["feel", "pain-free"],
    ["illness", "none"],
    ["illness", "not ill"],
    ["illness", "keine"],
    ["illness", "gesund"],
    ["medicine", "no medicine"],
    ["medicine", "nein"],
    ["sleep", "8 h"],
    ["sleep", "7,5 Stunden, gut"],
    ["foodAndDrink", "2 bottles, 3 bars"],
    ["foodAndDrink", "zwei Flaschen, drei Riegel"],
    ["heat", "28 degrees, windy"],
    ["heat", "cold and wet"],
    ["feel", "good \u{1F600}"],
    ["illness", ""],
  ])("%s: %s holds nothing", (field, text) => {
    expect(noteHold(note(field, text))).toBeNull();
  });
});
