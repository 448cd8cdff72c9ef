import type { Facet } from "./facets"

/** A facet with the parts that are let through; none chosen lets everyone through. */
export type Sieve = { readonly facet: Facet; readonly chosen: readonly number[] }

export type Sifted = {
  /** The rows that pass every sieve, in table order. */
  readonly rows: Uint32Array
  /** For each sieve, how many rows each of its parts would show while all other sieves hold. */
  readonly counts: ReadonlyMap<string, Uint32Array>
}

/** Passes every row through the sieves in one go. `found` marks the rows that the search found; null is all. */
export function sift(length: number, sieves: readonly Sieve[], found: Uint8Array | null): Sifted {
  const compiled = sieves.map(compile)
  const rows = new Uint32Array(length)
  let kept = 0
  for (let row = 0; row < length; row += 1) {
    if (found !== null && found[row] === 0) continue
    let refusals = 0
    let refusedBy = -1
    for (let place = 0; place < compiled.length; place += 1) {
      const one = compiled[place]
      if (one && !one.lets(row)) {
        refusals += 1
        refusedBy = place
        if (refusals > 1) break
      }
    }
    if (refusals === 0) {
      rows[kept] = row
      kept += 1
      for (const one of compiled) one.count(row)
    } else if (refusals === 1) compiled[refusedBy]?.count(row)
  }
  return {
    rows: rows.slice(0, kept),
    counts: new Map(compiled.map((one) => [one.name, one.counts])),
  }
}

function compile({ facet, chosen }: Sieve) {
  const { codes, isBits } = facet
  const counts = new Uint32Array(facet.words.length)
  const isOpen = chosen.length === 0
  const mask = chosen.reduce((bits, part) => bits | (1 << part), 0)
  const allowed = Uint8Array.from(facet.words, (_word, part) => (chosen.includes(part) ? 1 : 0))
  return {
    name: facet.name,
    counts,
    lets: (row: number) => {
      const code = codes[row] ?? 0
      return isOpen || (isBits ? (code & mask) !== 0 : allowed[code] === 1)
    },
    count: (row: number) => {
      const code = codes[row] ?? 0
      if (!isBits) counts[code] = (counts[code] ?? 0) + 1
      else
        for (let part = 0; part < counts.length; part += 1)
          if (code & (1 << part)) counts[part] = (counts[part] ?? 0) + 1
    },
  }
}
