import { placeOn, type Scale } from "./chart-scale"
import { count, percent, percentInterval } from "../../lib/speech/format"
import { PeopleLink } from "./people-link"
import type { Rate } from "../../lib/statistics/rate"
import { placed } from "./placed"
import styles from "./group-dots.module.css"

export type GroupRow = { name: string; rate: Rate; href: string }

/** The fewest people for whom a share is drawn; below it only the two counts are given. */
export const fewestForShare = 10

/**
 * Groups of one kind as dots with their intervals on one scale, the clinic as a hairline. The order is the caller's
 * (by name or by registration), never by result; groups of few people are counts without a dot, and
 * without a scale where all are.
 */
export function GroupDots(props: { title: string; rows: GroupRow[]; clinic: Rate; scale: Scale | null }) {
  const { clinic, scale } = props
  const at = (ratio: number) => `${scale === null ? 0 : placeOn(scale, ratio) * 100}%`
  return (
    <table className={styles.groups} role="table">
      <caption>{props.title}</caption>
      <thead role="rowgroup">
        <tr role="row">
          <th scope="col" role="columnheader" className="visually-hidden">
            {props.title}
          </th>
          <td aria-hidden="true" className={styles.ends}>
            {scale === null ? null : (
              <>
                <span>{percent(scale.low)}</span>
                <span>{percent(scale.high)}</span>
              </>
            )}
          </td>
          <th scope="col" role="columnheader" className="visually-hidden">
            Rate and interval
          </th>
          <th scope="col" role="columnheader" className="visually-hidden">
            People
          </th>
        </tr>
      </thead>
      <tbody role="rowgroup">
        {props.rows.map((row) => (
          <tr key={row.name} role="row">
            <th scope="row" role="rowheader">
              {row.name}
            </th>
            <td aria-hidden="true" className={styles.track}>
              <div>
                {clinic.rate === null || scale === null ? null : (
                  <span className={styles.clinic} {...placed({ left: at(clinic.rate) })} />
                )}
                <Dot rate={row.rate} at={at} />
              </div>
            </td>
            <td role="cell" className={styles.rate}>
              {rateWords(row.rate)}
            </td>
            <td role="cell" className={styles.counts}>
              <PeopleLink href={row.href} number={row.rate.met}>
                {count(row.rate.met)}
              </PeopleLink>{" "}
              of {count(row.rate.total)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Dot({ rate, at }: { rate: Rate; at: (ratio: number) => string }) {
  if (rate.rate === null || rate.interval === null || rate.total < fewestForShare) return null
  return (
    <>
      <span
        className={styles.interval}
        {...placed({ left: at(rate.interval.low), right: `calc(100% - ${at(rate.interval.high)})` })}
      />
      <span className={styles.dot} {...placed({ left: at(rate.rate) })} />
    </>
  )
}

function rateWords(rate: Rate): string {
  if (rate.rate === null || rate.interval === null) return "no one"
  if (rate.total < fewestForShare) return "few people"
  return `${percent(rate.rate)} (${percentInterval(rate.interval)})`
}
