import fc from "fast-check"
import { expect, test } from "vitest"
import { forInputs } from "../helpers/fuzz"
import { hostileText, wellFormed } from "../helpers/hostile"
import { openDrugs } from "../helpers/open-drugs"

/** As an import keeps texts: without a NUL or a unit separator, in whole characters, trimmed. */
const kept = (text: string) => wellFormed(text.replaceAll(/[\0\u001f]/g, "")).trim()

const part = fc.constantFrom(
  "lisinopril",
  "hydrochlorothiazide",
  "10 mg",
  "/",
  "-",
  "hctz",
  "od",
  "tab",
  "er",
  " ",
  "+",
)
const text = fc
  .oneof(
    hostileText,
    fc.array(fc.oneof(part, hostileText), { maxLength: 5 }).map((parts) => parts.join(" ")),
  )
  .map(kept)
  .filter((one) => one !== "")

const atOnce = 500

test("any drug text and any substance is matched or told as not known, each once", () =>
  forInputs(
    fc.array(text, { minLength: atOnce, maxLength: atOnce }),
    async (texts) => {
      const connection = await openDrugs({
        orders: texts.map((drug) => ({ drug })),
        substances: texts.slice(0, 50),
      })
      const reader = await connection.runAndReadAll(
        "select text, status, ingredients from drug_texts where text is not null",
      )
      const rows = reader.getRowObjectsJson()
      connection.closeSync()

      expect(rows.length).toBeGreaterThan(0)
      expect(new Set(rows.map((row) => row["text"])).size).toBe(rows.length)
      expect(rows.length).toBeLessThanOrEqual(new Set(texts).size)
    },
    { atOnce },
  ))
