/**
 * What stands at a position of the text: a record that is over (`closed`), one whose quote is never closed (`open`), a line
 * longer than any record, or something that more text may still complete (`waiting`). `first...` is the end of its first line.
 */
export type Found = {
  state: "closed" | "open" | "long line" | "waiting"
  end: number
  next: number
  lines: number
  firstEnd: number
  firstNext: number
}

/** Finds where the record at a position ends, by counting quotes: inside a quoted field their number is odd. */
export function createLineScanner(
  text: string,
  options: { isLast: boolean; hasBareReturns: boolean; longestRecord: number },
): (from: number) => Found {
  const { isLast, hasBareReturns, longestRecord } = options
  const countQuotes = createQuoteCounter(text)

  return (from) => {
    const found: Found = { state: "waiting", end: 0, next: from, lines: 0, firstEnd: 0, firstNext: 0 }
    let isOpen = false
    for (;;) {
      const lineEnd = findLineEnd(text, { from: found.next, hasBareReturns })
      if (!lineEnd && !isLast) {
        const isTooLong = text.length - from > longestRecord
        found.state = !isTooLong ? "waiting" : found.lines === 0 ? "long line" : "open"
        return found
      }
      const { end, next } = lineEnd ?? { end: text.length, next: text.length }
      if (countQuotes(found.next, end) % 2 === 1) isOpen = !isOpen
      found.end = end
      found.next = next
      found.lines += 1
      if (found.lines === 1) {
        found.firstEnd = end
        found.firstNext = next
      }
      if (isOpen && lineEnd && next - from <= longestRecord) continue
      found.state = isOpen ? "open" : "closed"
      return found
    }
  }
}

export function findLineEnd(
  text: string,
  { from, hasBareReturns }: { from: number; hasBareReturns: boolean },
): { end: number; next: number } | null {
  if (hasBareReturns) {
    const lineBreak = /\r\n|\n|\r/g
    lineBreak.lastIndex = from
    const found = lineBreak.exec(text)
    return found ? { end: found.index, next: lineBreak.lastIndex } : null
  }
  const end = text.indexOf("\n", from)
  if (end < 0) return null
  return { end: end > from && text[end - 1] === "\r" ? end - 1 : end, next: end + 1 }
}

function createQuoteCounter(text: string): (from: number, to: number) => number {
  // The next quote at or after `searchedFrom`; remembered, so that a far one is not searched for again on every line.
  let searchedFrom = 0
  let quoteAt = search(0)

  function search(from: number): number {
    const found = text.indexOf('"', from)
    searchedFrom = from
    return found < 0 ? text.length : found
  }

  return (from, to) => {
    if (from < searchedFrom || from > quoteAt) quoteAt = search(from)
    let count = 0
    while (quoteAt < to) {
      count += 1
      quoteAt = search(quoteAt + 1)
    }
    return count
  }
}
