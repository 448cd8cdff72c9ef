import { daysAfter } from "../../../../lib/domain/day-sums"
import type { LetterTemplate } from "../../../../lib/domain/letter-template"
import type { PlainDate } from "../../../../lib/domain/plain-date"
import type { Settings } from "../../../../lib/domain/settings"
import { fillLetter, type FilledLetter } from "../../../../lib/letters/fill-letter"

const nothing = { secondValue: null, comparator: null, fallsOutOn: null, factOn: null }

/** The letter that a template makes for an invented person with two reasons. */
export function inventedLetter(
  template: LetterTemplate,
  of: { clinic: string; today: PlainDate; settings: Settings },
): FilledLetter {
  const { clinic, today, settings } = of
  return fillLetter(
    template,
    {
      ...{ name: "Alex Example", clinic, clinician: "Dr Robin Example", today },
      nextVisitOn: daysAfter(today, 30),
      reasons: [
        { ...nothing, reason: "above-target", value: 146, secondValue: 88 },
        { ...nothing, reason: "urine-albumin-due", value: null },
      ],
    },
    settings,
  )
}
