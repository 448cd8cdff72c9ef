import type { Panel, TextColumn, TextName } from "./panel"

/** What a column sorts by, one number a row; NaN is missing and stands last, whichever the direction. */
export type SortKeys = Float64Array

/** The rows in the order of their keys. Equal keys stay in the order in which they come. */
export function ordered(rows: Uint32Array, keys: SortKeys, direction: "up" | "down"): Uint32Array {
  const sign = direction === "up" ? 1 : -1
  return rows.toSorted((one, other) => {
    const first = keys[one] ?? NaN
    const second = keys[other] ?? NaN
    if (Number.isNaN(first)) return Number.isNaN(second) ? 0 : 1
    if (Number.isNaN(second)) return -1
    return sign * (first - second)
  })
}

/** The places of a text column's words in the reader's alphabet. */
export function alphabetKeys(column: TextColumn): SortKeys {
  const { compare } = new Intl.Collator(undefined, { numeric: true })
  const placeByCode = new Float64Array(column.words.length).fill(NaN)
  column.words
    .map((_word, code) => code)
    .filter((code) => code !== 0)
    .sort((one, other) => compare(column.words[one] ?? "", column.words[other] ?? ""))
    .forEach((code, place) => {
      placeByCode[code] = place
    })
  return Float64Array.from(column.codes, (code) => placeByCode[code] ?? NaN)
}

/** The places of a text column's words in a given order, for words that have one of their own. */
export function listedKeys(column: TextColumn, words: readonly string[]): SortKeys {
  const placeByCode = column.words.map((word) => {
    const place = words.indexOf(word)
    return place < 0 ? NaN : place
  })
  return Float64Array.from(column.codes, (code) => placeByCode[code] ?? NaN)
}

/** One key from two: by the first, and within it by the second, which must stay below 100,000. */
export function nested(first: SortKeys, second: SortKeys): SortKeys {
  return Float64Array.from(first, (key, row) => {
    const inner = second[row] ?? NaN
    return key * 100_000 + (Number.isNaN(inner) ? 99_999 : inner)
  })
}

/** Laboratory values as they compare: "<5" just below 5, ">300" just above it. */
export function labKeys(values: Float64Array, comparators: TextColumn): SortKeys {
  const shiftByCode = comparators.words.map((word) => (word === "<" ? -1e-6 : word === ">" ? 1e-6 : 0))
  return Float64Array.from(values, (value, row) => value + (shiftByCode[comparators.codes[row] ?? 0] ?? 0))
}

/** All rows by family name, given name and number: the order in which ties stand. */
export function nameOrder(panel: Panel): Uint32Array {
  const keys = (name: TextName) => alphabetKeys(panel.texts(name))
  const [family, given, number] = [keys("family_name"), keys("given_name"), keys("patient_id")]
  const byNumber = ordered(
    Uint32Array.from({ length: panel.length }, (_, row) => row),
    number,
    "up",
  )
  return ordered(ordered(byNumber, given, "up"), family, "up")
}
