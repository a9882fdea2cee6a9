import { referenceTable } from "./ride/referenceTable.ts";

// Prints, file by file, how the rides of a folder compare with the figures of its REFERENCE.json. Exit 1 on an unexplained line.
const folder = process.argv[2] ?? "test/fixtures/rides";
const lines = referenceTable(folder);
for (const { file, verdict, read, notes, warnings } of lines) {
  console.log(`${verdict.padEnd(9)} ${file}: ${read}`);
  for (const note of notes) console.log(`            ${note}`);
  for (const warning of warnings) console.log(`          - ${warning}`);
}
const differing = lines.filter((l) => l.verdict === "differs").length;
const explained = lines.filter((l) => l.verdict === "explained").length;
console.log(
  `${lines.length} files: ${lines.length - differing - explained} agree, ${explained} explained, ${differing} not explained`,
);
process.exitCode = differing > 0 || lines.length === 0 ? 1 : 0;
