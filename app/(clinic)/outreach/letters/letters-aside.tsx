import Link from "next/link"
import type { Settings } from "../../../../lib/domain/settings"
import { attemptsRule } from "../../../../lib/outreach/attempts-rule"
import { count, counted, languageName, listed } from "../../../../lib/speech/format"
import { AsidePart, ScreenTitle } from "../../../_ui/screen"
import type { DueLetters } from "./letters-answers"

/** For how many a letter is next and by which rule, what the letters say, and where addresses come from. */
export function LettersAside({ answers, settings }: { answers: DueLetters; settings: Settings }) {
  const { total, templates } = answers
  const rule = attemptsRule(settings)
  return (
    <>
      <ScreenTitle title="Letters">
        <p>
          A letter is next for {count(total)} {total === 1 ? "person" : "people"}: after{" "}
          {counted(rule.attempts, "attempt", "attempts")} by at least{" "}
          {counted(rule.channels, "channel", "channels")}, or as the way they prefer.
        </p>
      </ScreenTitle>
      <AsidePart>
        <p className="soft">
          {templates.length === 0
            ? "The clinic has written no letter: the program’s own, in English, serves."
            : `The clinic’s letters are in ${listed(templates.map((one) => languageName(one.language)))}.`}{" "}
          <Link href="/settings/letters" prefetch={false}>
            What letters say
          </Link>
        </p>
      </AsidePart>
    </>
  )
}

/** Where addresses come from, and who decides. */
export function LettersAfter() {
  return (
    <>
      <AsidePart>
        <p className="soft">
          An extract brings no street address. The files have the number of each person, by which the clinic’s
          own system adds it. Filtrate sends nothing.
        </p>
      </AsidePart>
      <AsidePart>
        <p className="soft">
          Whoever is urgent gets a call and no letter. A letter may be opened by somebody else. Clinicians
          decide; local policy applies.
        </p>
      </AsidePart>
      <AsidePart>
        <nav aria-label="Outreach">
          <Link href="/outreach" prefetch={false}>
            People to contact
          </Link>
        </nav>
      </AsidePart>
    </>
  )
}
