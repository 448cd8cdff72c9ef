import { placeOn, type Scale } from "./chart-scale"
import { count, percent, percentInterval } from "../../lib/speech/format"
import { fewestForPoint } from "../../lib/figures/group-figures"
import { fewestForRate } from "../../lib/figures/measure-figure"
import { PeopleLink } from "./people-link"
import type { Rate } from "../../lib/statistics/rate"
import { placed } from "./placed"
import styles from "./group-dots.module.css"

/** A group without a rate is not shown to the caller; without an address its number opens nobody. */
export type GroupRow = { name: string; rate: Rate | null; href: string | null }

/**
 * Groups of one kind as dots with their intervals on one scale, the clinic as a hairline. The order is the caller's
 * (by name or by registration), never by result; groups of few people have no dot, those of fewer are counts alone;
 * without a scale all are.
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
                {scale === null ? null : <Dot rate={row.rate} at={at} />}
              </div>
            </td>
            <td role="cell" className={styles.rate}>
              {rateWords(row.rate)}
            </td>
            <td role="cell" className={styles.counts}>
              <Counts row={row} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Dot({ rate, at }: { rate: Rate | null; at: (ratio: number) => string }) {
  if (rate === null || rate.rate === null || rate.interval === null || rate.total < fewestForRate) return null
  return (
    <>
      <span
        className={styles.interval}
        {...placed({ left: at(rate.interval.low), right: `calc(100% - ${at(rate.interval.high)})` })}
      />
      {rate.total < fewestForPoint ? null : (
        <span className={styles.dot} {...placed({ left: at(rate.rate) })} />
      )}
    </>
  )
}

function Counts({ row }: { row: GroupRow }) {
  if (row.rate === null) return null
  const { met, total } = row.rate
  if (row.href === null) return `${count(met)} of ${count(total)}`
  return (
    <>
      <PeopleLink href={row.href} number={met}>
        {count(met)}
      </PeopleLink>{" "}
      of {count(total)}
    </>
  )
}

function rateWords(rate: Rate | null): string {
  if (rate === null) return "not shown"
  if (rate.rate === null || rate.interval === null) return "no one"
  if (rate.total < fewestForRate) return "few people"
  if (rate.total < fewestForPoint) return `${percentInterval(rate.interval)}%`
  return `${percent(rate.rate)} (${percentInterval(rate.interval)})`
}
