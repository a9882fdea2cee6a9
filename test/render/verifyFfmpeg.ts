/** `npm run verify:ffmpeg [-- NAME…]`: the matrix of frame truth, or the rows that hold a name, on the ffmpeg found here. */
import { ffmpegVersion } from "../../main/host/ffmpegFacts.edge.ts";
import { testTools } from "../support/tools.ts";
import { exactnessMatrix } from "./exactness.ts";

const tools = testTools();
const say = (line: string): void => void process.stdout.write(`${line}\n`);
say(`ffmpeg ${await ffmpegVersion(tools)} (${tools.ffmpeg})`);
const only = process.argv.slice(2);
const results = await exactnessMatrix(tools, { log: say, ...(only.length > 0 ? { only } : {}) });
const frames = results.reduce((sum, result) => sum + result.frames, 0);
const wrong = results.reduce(
  (sum, { missingFrames, wrongPictures, wrongPanels, unevenSteps, unevenPackets }) =>
    sum + missingFrames + wrongPictures + wrongPanels + unevenSteps + unevenPackets,
  0,
);
say(`${results.length} cases, ${frames} frames, ${wrong} wrong`);
process.exit(wrong === 0 && (frames > 1000 || only.length > 0) ? 0 : 1);
