import fluentFfmpeg from "fluent-ffmpeg";

export interface FfmpegInput {
  /** A path, `pipe:0`, or a source graph where the options say `-f lavfi`. */
  readonly source: string;
  /** Options that stand before its `-i`, one argument an entry. */
  readonly options: readonly string[];
}

export interface FfmpegCommand {
  readonly inputs: readonly FfmpegInput[];
  /** A whole filter graph with named outputs, or null. */
  readonly filterGraph: string | null;
  readonly outputOptions: readonly string[];
  /** Path of the file to write; `-` for none, or for what is read from stdout. */
  readonly output: string;
  /** Level of what ffmpeg says on stderr, for a run that is read by its words or its stdout; it then counts no frames. */
  readonly log?: "error" | "info" | "verbose";
}

/** Said once for every run: no question, no banner. */
const ALWAYS = ["-hide_banner", "-nostdin", "-nostats"];
/** Messages that count, progress as lines on stdout. */
const COUNTED = ["-loglevel", "warning", "-progress", "pipe:1"];

/**
 * The argument list of one ffmpeg run, put together by fluent-ffmpeg; nothing is started here. The one place that knows
 * that library (its repository is archived): whatever takes its place, takes it here.
 *
 * Options are handed over as separate arguments, since that library splits a lone string at its space.
 */
export function ffmpegArguments(command: FfmpegCommand): string[] {
  const assembled = fluentFfmpeg() as fluentFfmpeg.FfmpegCommand & { _getArguments(): string[] };
  for (const input of command.inputs) {
    assembled.input(input.options.includes("lavfi") ? input.source : fileUrl(input.source));
    if (input.options.length > 0) assembled.inputOptions(...pairProof(input.options));
  }
  if (command.filterGraph !== null) assembled.complexFilter(command.filterGraph);
  assembled.outputOptions(...pairProof(command.outputOptions));
  assembled.output(command.output === "-" ? "-" : fileUrl(command.output));
  const list = assembled._getArguments().filter((argument) => argument !== "-y");
  return [...ALWAYS, ...(command.log === undefined ? COUNTED : ["-loglevel", command.log]), "-y", ...list];
}

/** A single option would be taken for a line to split; two never are. */
function pairProof(options: readonly string[]): [string, string, ...string[]] {
  if (options.length < 2) throw new RangeError("Options of ffmpeg come in pairs here.");
  return options as unknown as [string, string, ...string[]];
}

/** The `file:` protocol keeps a name with a colon, a dash or a percent sign from being read as something else. */
function fileUrl(source: string): string {
  return /^pipe:\d+$/.test(source) || source === "-" ? source : `file:${source}`;
}
