import type { Settings } from "./settings"

/** Words with every `{bp.windowMonths}` replaced by what the clinic set there; numbers with a thousands separator. */
export function withSettings(words: string, settings: Settings): string {
  const byKey = new Map<string, string | number | null>(Object.entries(settings))
  return words.replaceAll(/\{([a-z]+\.[A-Za-z0-9]+)\}/g, (_, key: string) => {
    const value = byKey.get(key)
    if (value === undefined) throw new RangeError(`withSettings knows no setting ${key}`)
    if (value === null) return "not set"
    return typeof value === "number" ? value.toLocaleString("en-US") : value
  })
}
