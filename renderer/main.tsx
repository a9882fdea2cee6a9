import { createRoot } from "react-dom/client";
import "./look/look.css";
import "./frame/frame.css";
import { openDesk } from "./desk/desk.ts";
import { Frame } from "./frame/Frame.tsx";
import { keptTheme, setTheme } from "./look/theme.ts";

setTheme(keptTheme());
openDesk();
createRoot(document.getElementById("window")!).render(<Frame />);
