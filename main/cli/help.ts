import type { Verb } from "./verb.ts";

/** What `followcar --help` prints. */
export function overallHelp(verbs: readonly Verb[]): string {
  const width = Math.max(...verbs.map((verb) => verb.name.length));
  return `followcar turns a bike ride's file and footage into a short debrief film that teaches.

Usage: followcar VERB …        followcar VERB --help tells more, with an example

Verbs:
${verbs.map((verb) => `  ${verb.name.padEnd(width)}  ${verb.summary}`).join("\n")}

Start here:
  followcar open                        the window: from the files to the film, without a command
  followcar demo                        makes a ride and footage of our own and debriefs them
  followcar read RIDE.fit               what the ride says, in a few lines
  followcar debrief RIDE.fit CLIP.mp4 --anchor CLIP.mp4@0:12=1:08:05
                                        the film and the written debrief

Every verb takes --json (machine output on stdout, messages on stderr) and --language de (German; help stays English).
Exit codes: 0 done, 1 failed, 2 wrong usage, 3 input not usable, 4 not sure where a clip belongs, 130 interrupted.

Never operate a camera while riding; local traffic and filming law decides. What Followcar says about a heart is no
medical advice: stop and seek help for chest pain, faintness or a racing heart.`;
}
