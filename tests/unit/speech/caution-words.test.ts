import { expect, test } from "vitest"
import { cautionSentence, cautionWords } from "../../../lib/speech/caution-words"

const plain = (words: string) => words.replaceAll("\u00a0", " ")
const none = { word: null, number: null, comparator: null, day: null }

test("a caution leads with the fact and its day", () => {
  const fact = {
    ...none,
    ...({ caution: "potassium-high-on-drug", number: 6.1, comparator: ">", day: "2026-10-02" } as const),
  }

  expect(plain(cautionWords(fact).lead)).toBe("Potassium >6.1 mmol/L on 2 Oct 2026")
  expect(plain(cautionSentence(fact))).toBe("Potassium >6.1 mmol/L on 2 Oct 2026, on a drug that raises it.")
})

test("a pressure says where it was taken, and nothing of a place it does not know", () => {
  const severe = { ...none, caution: "severe pressure", day: "2026-10-02" } as const

  expect(plain(cautionSentence({ ...severe, word: "ambulatory" }))).toBe(
    "Pressure severe (24-hour) on 2 Oct 2026.",
  )
  expect(plain(cautionSentence({ ...severe, word: null }))).toBe("Pressure severe on 2 Oct 2026.")
})
