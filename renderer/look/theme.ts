/** Colours by the system, or fixed. */
export type ThemeChoice = "system" | "light" | "dark";

const NAME = "followcar-theme";

/** The choice kept from last time. A cookie, because the fallback's origin has another port at every start. */
export function keptTheme(): ThemeChoice {
  const kept = new RegExp(`(?:^|; )${NAME}=(light|dark)`).exec(document.cookie)?.[1] ?? localStorage.getItem(NAME);
  return kept === "light" || kept === "dark" ? kept : "system";
}

/** Shows and keeps a choice. */
export function setTheme(choice: ThemeChoice): void {
  if (choice === "system") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = choice;
  document.cookie = `${NAME}=${choice}; SameSite=Strict; Path=/; Max-Age=31536000`;
  localStorage.setItem(NAME, choice);
}
