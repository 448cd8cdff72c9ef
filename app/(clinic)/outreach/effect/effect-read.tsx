import { Caution } from "../../../_ui/notice"
import type { EffectAnswers } from "./effect-answers"
import styles from "./effect.module.css"

/** What has to be known before the figures are read. Nothing here is a plain before and after. */
export function EffectRead({ answers }: { answers: EffectAnswers }) {
  return (
    <div className={styles.read}>
      <Caution>
        <p>
          A value that was high once is on average lower the next time, with nobody doing anything (regression
          to the mean: Barnett 2005, Int J Epidemiol 34:215-220, doi:10.1093/ije/dyh299). So a reason that
          ended after a call says nothing by itself; only the difference from people not yet contacted does,
          and it is no experiment: whom a clinic calls first differs from others. Of many comparisons a few
          differ by chance alone. Clinicians decide; local policy applies.
        </p>
      </Caution>
      <details className={styles.how}>
        <summary>How this is counted</summary>
        <p>
          Contacted is who had an attempt while the reason held, before the day it was gone; reached is who
          agreed, declined, had done it already or asked to be called back. Urgent reasons, reasons that end
          by themselves with time, and people who asked not to be contacted are left out.
        </p>
        <p>
          Beside each person contacted stands one with the same reason, begun in the same month, who still had
          it as many days after its beginning and had not been contacted by then. Both are counted from that
          day, so that the days before favour neither. The other is chosen without a look at what came later,
          stands beside one person only, and stays where they stand when they are contacted afterwards.
          Contacted people beside whom nobody could be put are in the counts and in no pair.
        </p>
        <p>
          Resolved is a reason that the facts ended, without another of its kind in its place. A pair counts
          once its 30 or 90 days are over and neither left, died, or had the reason switched off meanwhile.
          From {answers.fewest} pairs on there are shares, with 95% intervals by Wilson and of the difference
          by Newcombe. Who has a visit soon is not called, and a visit often ends a reason: that makes people
          not yet contacted look better.
        </p>
      </details>
    </div>
  )
}
