const mostRemembered = 20_000
// A longer piece of a text may keep the whole text it was cut from in memory.
const longestRemembered = 12

/** The same pure function of a text, which remembers its answers for short texts; how many is bounded. */
export function remember<Answer>(answer: (text: string) => Answer): (text: string) => Answer {
  const answers = new Map<string, Answer>()
  return (text) => {
    if (text.length > longestRemembered) return answer(text)
    const known = answers.get(text)
    if (known !== undefined) return known
    const fresh = answer(text)
    if (answers.size >= mostRemembered) answers.clear()
    answers.set(text, fresh)
    return fresh
  }
}
