import Link from "next/link"
import { day } from "../../../../lib/speech/format"
import { Button } from "../../../_ui/button"
import { AsidePart, ScreenTitle } from "../../../_ui/screen"
import type { EffectAnswers } from "./effect-answers"
import styles from "./effect.module.css"

/** Of which reasons the screen tells, and the form to choose others. */
export function EffectAside({ answers }: { answers: EffectAnswers }) {
  const { view, isWhole } = answers
  return (
    <>
      <ScreenTitle title="Did it work?" size="small">
        Reasons that began from {day(view.from)} to {day(view.to)}, and what came of them.
      </ScreenTitle>
      <AsidePart title="Period">
        <form action="/outreach/effect" className={styles.period}>
          <label>
            <span>From</span>
            <input type="date" name="from" defaultValue={view.from} />
          </label>
          <label>
            <span>To</span>
            <input type="date" name="to" defaultValue={view.to} />
          </label>
          <Button type="submit">Show</Button>
        </form>
      </AsidePart>
      {isWhole ? null : (
        <AsidePart>
          <p className="soft">These are the people this account may see, not the whole clinic.</p>
        </AsidePart>
      )}
      <AsidePart>
        <p>
          <Link href="/outreach" prefetch={false}>
            People to contact
          </Link>
        </p>
      </AsidePart>
    </>
  )
}
