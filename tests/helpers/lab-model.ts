/**
 * A plain-spoken model of how the rows of labs.csv become facts, one key at a time, written from the rules of the extract
 * contract and from nothing else. The import must agree with it.
 */

export type LabRow = {
  patient: string
  id: string
  day: number
  value: "4.1" | "4.2" | "4.3" | "bad"
  status: "final" | "corrected" | "preliminary"
  isRetracted: boolean
}

export type LabFact = Pick<LabRow, "patient" | "id" | "day" | "value" | "status">

/** Facts in force by key; those without an id by their place, from 1. */
export type LabState = Map<string, Map<number, LabFact>>

export type LabCounts = Record<
  "added" | "changed" | "unchanged" | "withdrawn" | "held" | "rejected" | "withdrawnByFull",
  number
>

type Verdict = "added" | "changed" | "unchanged"

export function keyOf(row: LabRow): string {
  return row.id === "" ? `${row.patient} ${row.day}` : row.id
}

/** Imports the rows of one extract into the state, and counts. */
export function importRows(
  state: LabState,
  rows: readonly LabRow[],
  options: { isFull: boolean; isKnown: (patient: string) => boolean },
): LabCounts {
  const counts = {
    ...{ added: 0, changed: 0, unchanged: 0, withdrawn: 0, held: 0, rejected: 0, withdrawnByFull: 0 },
  }
  const say = (row: LabRow, verdict: Verdict) => {
    counts[options.isKnown(row.patient) ? verdict : "held"] += 1
  }
  const keys = new Set([...rows.map(keyOf), ...(options.isFull ? state.keys() : [])])
  for (const key of keys) {
    const own = rows.filter((row) => keyOf(row) === key)
    const stored = state.get(key) ?? new Map<number, LabFact>()
    state.set(key, stored)
    const retracted = own.filter((row) => row.isRetracted)
    const rejected = own.filter((row) => !row.isRetracted && row.value === "bad")
    const good = own.filter((row) => !row.isRetracted && row.value !== "bad")
    counts.rejected += rejected.length

    const met = new Set<number>()
    retracted.forEach((_, index) => {
      const isNumbered = own[0]?.id === ""
      const place = isNumbered || index === 0 ? index + 1 : null
      const isThere = place !== null && stored.delete(place)
      counts[isThere ? "withdrawn" : "unchanged"] += 1
    })
    if (own[0] && own[0].id !== "") meetById(stored, good, { isRetracted: retracted.length > 0, met, say })
    else meetByOrder(stored, good, { retracted: retracted.length, met, say })

    if (!options.isFull) continue
    const gone = [...stored.keys()].filter((place) => !met.has(place)).sort((a, b) => a - b)
    for (const place of gone.slice(rejected.length)) {
      stored.delete(place)
      counts.withdrawnByFull += 1
    }
  }
  return counts
}

type Meeting = { met: Set<number>; say: (row: LabRow, verdict: Verdict) => void }

function meetById(
  stored: Map<number, LabFact>,
  good: LabRow[],
  { isRetracted, met, say }: Meeting & { isRetracted: boolean },
): void {
  const settled = good.filter((row) => row.status !== "preliminary")
  const winner = isRetracted ? undefined : (settled.at(-1) ?? good.at(-1))
  for (const row of good) if (row !== winner) say(row, "unchanged")
  if (winner) say(winner, meet(stored, 1, winner))
  if (winner) met.add(1)
}

function meetByOrder(
  stored: Map<number, LabFact>,
  good: LabRow[],
  { retracted, met, say }: Meeting & { retracted: number },
): void {
  for (const row of good.slice(0, retracted)) say(row, "unchanged")
  const arriving = good.slice(retracted)
  const places = [...stored.keys()].filter((place) => place > retracted).sort((a, b) => a - b)
  const rest = arriving.filter((row) => {
    const place = places.find((one) => !met.has(one) && isSame(stored.get(one), row))
    if (place === undefined) return true
    met.add(place)
    say(row, "unchanged")
    return false
  })
  const restPlaces = places.filter((place) => !met.has(place))
  for (const row of rest) {
    let place = restPlaces.shift()
    if (place === undefined) {
      place = retracted + 1
      while (stored.has(place)) place += 1
    }
    say(row, meet(stored, place, row))
    met.add(place)
  }
}

/** The row meets the fact at its place, if there is one. */
function meet(stored: Map<number, LabFact>, place: number, row: LabRow): Verdict {
  const older = stored.get(place)
  if (older && isSame(older, row)) return "unchanged"
  if (older && row.status === "preliminary" && older.status !== "preliminary") return "unchanged"
  stored.set(place, row)
  return older ? "changed" : "added"
}

function isSame(fact: LabFact | undefined, row: LabRow): boolean {
  return (
    fact?.patient === row.patient &&
    fact.id === row.id &&
    fact.day === row.day &&
    fact.value === row.value &&
    fact.status === row.status
  )
}

/** All facts of a state, one line each, in order. */
export function factLines(state: LabState): string[] {
  return [...state.values()]
    .flatMap((stored) =>
      [...stored].map(([place, fact]) =>
        [fact.patient, fact.id, fact.day, fact.value, fact.status, place].join(" "),
      ),
    )
    .sort()
}
