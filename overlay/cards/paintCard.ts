import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import type { Card } from "../../main/contract/card.ts";
import type { SizePx } from "./cardPage.ts";
import { paintPairStill } from "../pair/paintPair.ts";
import { paintChartCard } from "./paintChartCard.ts";
import { paintTableCard } from "./paintTableCard.ts";
import { paintTextCard } from "./paintTextCard.ts";

/** Draws a card over the whole picture: same type, ink and thread as the panels. Every pixel is opaque. */
export function paintCard(surface: Surface, card: Card, size: SizePx, theme: Theme, language: Language = "en"): void {
  switch (card.kind) {
    case "title":
    case "note":
    case "closing":
      return paintTextCard(surface, card, size, theme);
    case "plan":
      return paintTableCard(
        surface,
        { title: card.title, columns: null, rows: card.rows.map((row) => ({ label: row.label, values: [row.value] })) },
        size,
        theme,
      );
    case "comparison":
      return paintTableCard(
        surface,
        {
          title: card.title,
          columns: card.columns,
          rows: card.rows.map((row) => ({ label: row.label, values: [row.left, row.right] })),
        },
        size,
        theme,
      );
    case "pair":
      return paintPairStill(surface, card, size, theme, language, 0);
    case "chart":
      return paintChartCard(surface, card, size, theme, language);
  }
}
