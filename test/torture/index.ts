// `npm run torture`: long seeded runs. Fails when one fault is found.
import { tortureRide } from "./ride.ts";

if (tortureRide() > 0) process.exitCode = 1;
