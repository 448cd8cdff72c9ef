import { meanOf, type PlausibilityRow } from "./plausibility-row"
import { plausibilityRows } from "./plausibility-rows"
import type { Mean, Share, Tally } from "./tally"

/** The table as text, then the story month by month. */
export function plausibilityText(tally: Tally): string {
  const rows = plausibilityRows(tally)
  const isLarge = (tally.days.at(-1)?.panel ?? 0) >= 500
  const isFar = (row: PlausibilityRow) => row.value !== null && (row.value < row.low || row.value > row.high)
  const head = ["figure", "published", "range", "generated", "counts", "source"]
  const cells = rows.map((row) => [
    row.figure,
    row.published,
    `${row.low} to ${row.high} ${row.unit}`,
    row.value === null
      ? "-"
      : `${row.value.toFixed(row.unit === "mg" ? 0 : 1)}${isLarge && isFar(row) ? " *" : ""}`,
    row.counts,
    row.source,
  ])
  return [
    "Plausibility, by the generator's own count on the last day",
    isLarge
      ? "* outside the range"
      : "a panel under 500 strays from the ranges by chance; they are not marked",
    ...table([head, ...cells]),
    "",
    "The story, by the generator's own count",
    ...table(storyCells(tally)),
  ].join("\n")
}

function storyCells(tally: Tally): string[][] {
  const percent = (share: Share) => (share.of === 0 ? "-" : `${((100 * share.met) / share.of).toFixed(1)}%`)
  const mg = (mean: Mean) => `${meanOf(mean)?.toFixed(0) ?? "-"} (${mean.n})`
  const head = [
    "on",
    "panel",
    "CKD",
    "at target",
    "not measured",
    "resistant",
    "RAS in confirmed",
    "home in year",
    "urine in year",
    "sodium Northgate",
    "sodium Riverside",
  ]
  const body = tally.days.map((day) => [
    day.on,
    String(day.panel),
    String(day.ckd),
    percent(day.atTarget),
    percent(day.notMeasured),
    percent(day.resistant),
    percent(day.rasAmongConfirmed),
    percent(day.homeInYear),
    percent(day.acrInYear),
    mg(day.sodium.Northgate),
    mg(day.sodium.Riverside),
  ])
  return [head, ...body]
}

function table(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? "").length)),
  )
  return rows.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column] ?? 0))
      .join("  ")
      .trimEnd(),
  )
}
