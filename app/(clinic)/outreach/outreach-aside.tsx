import { dayOfYear, weekday } from "../../../lib/speech/format"
import { ScreenTitle } from "../../_ui/screen"
import type { outreachAnswers } from "./outreach-answers"

type Answers = Awaited<ReturnType<typeof outreachAnswers>>

/** The day in words, how many are to be contacted, and the ways to the other lists. */
export function OutreachAside({ answers }: { answers: Answers }) {
  return <ScreenTitle title={`${weekday(answers.on)} ${dayOfYear(answers.on)}`} />
}
