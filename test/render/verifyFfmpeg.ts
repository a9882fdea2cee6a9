/** `npm run verify:ffmpeg`: the whole matrix of frame truth on the ffmpeg that is found here. */
import { ffmpegVersion } from "../../main/host/ffmpegFacts.edge.ts";
import { testTools } from "../support/tools.ts";
import { exactnessMatrix } from "./exactness.ts";

const tools = testTools();
const say = (line: string): void => void process.stdout.write(`${line}\n`);
say(`ffmpeg ${await ffmpegVersion(tools)} (${tools.ffmpeg})`);
const results = await exactnessMatrix(tools, { log: say });
const frames = results.reduce((sum, result) => sum + result.frames, 0);
const wrong = results.reduce(
  (sum, { missingFrames, wrongPictures, wrongPanels, unevenPackets }) =>
    sum + missingFrames + wrongPictures + wrongPanels + unevenPackets,
  0,
);
say(`${results.length} cases, ${frames} frames, ${wrong} wrong`);
process.exit(wrong === 0 && frames > 1000 ? 0 : 1);
