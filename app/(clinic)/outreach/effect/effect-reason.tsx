import { withSettings } from "../../../../lib/domain/setting-words"
import type { Settings } from "../../../../lib/domain/settings"
import type { PairFigure, Share } from "../../../../lib/outreach/effect-figures"
import { reasons } from "../../../../lib/outreach/reasons"
import { count, counted, percent, percentInterval, points } from "../../../../lib/speech/format"
import type { EffectFigures } from "./effect-answers"
import styles from "./effect.module.css"

type Props = { figures: EffectFigures; settings: Settings; fewest: number }

/** One reason: whom it held, who was contacted and reached, and the two sides after 30 and 90 days. */
export function EffectReason({ figures, settings, fewest }: Props) {
  const { reason, people, contacted, reached, paired, pairs } = figures
  const known = reasons.find((one) => one.id === reason)
  const name = known ? withSettings(known.name, settings) : "All reasons"
  return (
    <article className={styles.reason}>
      {known ? <h3>{name}</h3> : null}
      <p>
        {counted(people, "person", "people")}, {count(contacted)} contacted, {count(reached)} of them reached.
        {known
          ? null
          : " Who had several reasons is one person in these numbers and stands below once for each, so that the intervals are somewhat too narrow."}
      </p>
      {contacted === 0 ? (
        <p className={styles.few}>
          Nobody was contacted while the reason held, so there is nothing to compare.
        </p>
      ) : paired === 0 ? (
        <p className={styles.few}>Nobody could be put beside those contacted, so nothing is said of them.</p>
      ) : (
        <table className={styles.pairs}>
          <caption className="visually-hidden">{name}: resolved, contacted and not yet contacted</caption>
          <thead>
            <tr>
              <th scope="col">Resolved within</th>
              <th scope="col">Contacted</th>
              <th scope="col">Not yet contacted</th>
              <th scope="col">Difference</th>
            </tr>
          </thead>
          <tbody>
            {pairs.map((figure) => (
              <Pair key={figure.days} figure={figure} fewest={fewest} />
            ))}
          </tbody>
        </table>
      )}
    </article>
  )
}

function Pair({ figure, fewest }: { figure: PairFigure; fewest: number }) {
  const { days, pairs, contactedResolved, othersResolved, shown } = figure
  return (
    <tr>
      <th scope="row">{days} days</th>
      <td data-label="Contacted">
        {count(contactedResolved)} of {count(pairs)}
        {shown === null ? null : <ShareWords share={shown.contacted} />}
      </td>
      <td data-label="Not yet contacted">
        {count(othersResolved)} of {count(pairs)}
        {shown === null ? null : <ShareWords share={shown.others} />}
      </td>
      <td data-label="Difference">
        {shown === null ? (
          <span className={styles.few}>
            {pairs === 0
              ? `No pair has ${days} days behind it`
              : `Too few to say: fewer than ${fewest} pairs`}
          </span>
        ) : (
          <>
            {points(shown.difference.difference)} points
            <small>
              {points(shown.difference.low)} to {points(shown.difference.high)}: {verdict(shown.difference)}
            </small>
          </>
        )}
      </td>
    </tr>
  )
}

function ShareWords({ share }: { share: Share }) {
  return (
    <small>
      {percent(share.rate)} ({percentInterval(share.interval)})
    </small>
  )
}

function verdict({ low, high }: { low: number; high: number }): string {
  if (low > 0) return "more were resolved among those contacted"
  return high < 0 ? "fewer were resolved among those contacted" : "no difference can be told"
}
