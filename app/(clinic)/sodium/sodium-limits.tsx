import { fewestForRate } from "../../../lib/figures/measure-figure"
import { sodiumMeanWords } from "../../../lib/figures/sodium-mean-words"
import { shareWords } from "../../../lib/figures/sodium-share-words"
import { barMg, lastBarMg, type SodiumBar } from "../../../lib/questions/sodium-bars"
import type { SodiumLimits as Limits } from "../../../lib/questions/sodium-limits"
import { count, counted, dayInFull, sentenceCase } from "../../../lib/speech/format"
import { Figures } from "../../_ui/figures"
import { Histogram } from "../../_ui/histogram"
import { Theme } from "../../_ui/screen"
import { TableHead } from "../../_ui/table-head"
import table from "../../_ui/table.module.css"
import { dietLimits } from "../diet-words"
import type { ChosenMonth } from "../months"
import styles from "./sodium.module.css"

/** Where people's sodium lies against the three limits, each way of asking apart, drawn and as counts. */
export function SodiumLimits(props: { limits: Limits[]; bars: SodiumBar[]; chosen: ChosenMonth }) {
  const { limits, bars, chosen } = props
  return (
    <Theme id="limits" title="Against the limits" note={`People with CKD, ${dayInFull(chosen.asOf)}`}>
      {limits.length === 0 ? (
        <p className={styles.none}>
          No one has a diet record or a 24-hour urine sodium of the last 12 months.
        </p>
      ) : (
        <>
          <p className={styles.lead}>
            Each person once, by the latest way of asking: the mean of the window of diet, else of the last 12
            months. The ways are never mixed, since they do not measure alike.
          </p>
          <div className={styles.histograms}>
            {limits.map((one) => (
              <Series key={one.series} limits={one} bars={bars.filter((bar) => bar.series === one.series)} />
            ))}
          </div>
          <Shares limits={limits} />
        </>
      )}
    </Theme>
  )
}

function Series({ limits, bars }: { limits: Limits; bars: SodiumBar[] }) {
  const { series, n } = limits
  const name = sentenceCase(series)
  return (
    <article>
      <h3>{name}</h3>
      <p className="fine soft">{counted(n, "person", "people")} by sodium in mg a day</p>
      {n < fewestForRate ? (
        <p className="fine soft">Too few people to draw.</p>
      ) : (
        <Histogram
          bars={bars.map((bar) => ({ from: bar.above_mg, number: bar.n }))}
          width={barMg}
          most={lastBarMg + barMg}
          lines={dietLimits}
          ends={{ low: "0", high: `above ${count(lastBarMg)}` }}
          finding={`${name}: ${limits.within_2300} of ${n} at or under 2,300 mg, ${limits.within_2000} at or under 2,000, ${limits.within_1500} at or under 1,500.`}
        />
      )}
      <Figures
        table={{
          caption: `People by sodium, ${series}`,
          columns: ["mg a day", "People"],
          rows: bars.map((bar) => [barWords(bar.above_mg), count(bar.n)]),
        }}
      />
    </article>
  )
}

function barWords(above: number): string {
  return above === lastBarMg ? `above ${count(above)}` : `above ${count(above)} to ${count(above + barMg)}`
}

function Shares({ limits }: { limits: Limits[] }) {
  return (
    <div className={table.frame}>
      <table className={table.table} role="table">
        <caption className="visually-hidden">People at or under each limit, by way of asking</caption>
        <TableHead
          heads={[
            "Way of asking",
            "Mean, mg a day",
            ...dietLimits.map(({ label }) => `At or under ${label}`),
          ]}
        />
        <tbody role="rowgroup">
          {limits.map((one) => (
            <tr key={one.series} role="row">
              <th scope="row" role="rowheader">
                {sentenceCase(one.series)}
                {one.comparators === 0 ? null : (
                  <span className={table.absent}>
                    , {counted(one.comparators, "value rests", "values rest")} on a &lt; or &gt;
                  </span>
                )}
              </th>
              <td role="cell" data-label="mean">
                {sodiumMeanWords({ n: one.n, mean: one.mean_mg, sd: one.sd_mg })}
              </td>
              {[one.within_2300, one.within_2000, one.within_1500].map((within, place) => (
                <td key={place} role="cell" data-label={`at or under ${dietLimits[place]?.label ?? ""}`}>
                  {shareWords(within, one.n)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
