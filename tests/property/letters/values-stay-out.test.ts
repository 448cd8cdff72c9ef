import fc from "fast-check"
import { expect, it } from "vitest"
import { reasonIds } from "../../../lib/domain/reason-ids"
import { Settings } from "../../../lib/domain/settings"
import { fillLetter } from "../../../lib/letters/fill-letter"
import { letterFields } from "../../../lib/letters/letter-fields"

const settings = Settings.parse({ "outreach.letterValues": "no" })
const piece = fc.oneof(
  fc.constantFrom(...letterFields.map(({ name }) => `{${name}}`), "{value}", "{{reasons}}", "\n"),
  fc.string().map((text) => text.replaceAll(/\d/g, "")),
)
const text = fc.array(piece, { maxLength: 8 }).map((pieces) => pieces.join(""))
const template = fc.record({
  ...{ letterhead: text, subject: text, body: text, closing: text },
  language: fc.constantFrom("en", "es", "ar", "zh-Hant", "de"),
  ownWords: fc.constantFrom("", "above-target: Toca revisar la tensión.", "no colon"),
})
const value = fc.double({ min: 0, max: 5000, noNaN: true })
const held = fc.record({
  reason: fc.constantFrom(...reasonIds),
  ...{ value: fc.option(value), secondValue: fc.option(value), comparator: fc.constantFrom(null, "<", ">") },
  ...{ factOn: fc.constantFrom(null, "2026-03-01"), fallsOutOn: fc.constantFrom(null, "2026-12-01") },
})
const facts = { name: "Ingrid Sollie", clinic: "Clinic", clinician: null, today: "2026-11-29" } as const

it("tells the same whatever was measured, and without days holds no digit at all, where values are off", () => {
  fc.assert(
    fc.property(template, fc.array(held, { maxLength: 6 }), (letter, reasons) => {
      const whole = { ...facts, nextVisitOn: "2026-12-24", reasons }
      const bare = reasons.map((one) => ({
        ...{ reason: one.reason, value: null, secondValue: null },
        ...{ comparator: null, factOn: null, fallsOutOn: null },
      }))
      expect(fillLetter(letter, whole, settings)).toEqual(
        fillLetter(letter, { ...whole, reasons: bare }, settings),
      )

      const [head, subject, body, closing] = [
        letter.letterhead,
        letter.subject,
        letter.body,
        letter.closing,
      ].map((part) => part.replaceAll("{today}", "").replaceAll("{nextVisit}", ""))
      const dayless = {
        ...letter,
        letterhead: head ?? "",
        subject: subject ?? "",
        body: body ?? "",
        closing: closing ?? "",
      }
      const { letterhead, subject: said, body: filled, closing: end } = fillLetter(dayless, whole, settings)
      expect([letterhead, said, filled, end].join("\n")).not.toMatch(/\p{Nd}/u)
    }),
  )
})
