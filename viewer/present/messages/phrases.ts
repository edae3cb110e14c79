import type { Language } from "../../../engine/index.ts";
export const translated = (text: string, language: Language): string | null => (language === "en" ? text : null);
