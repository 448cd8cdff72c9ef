import Link from "next/link"
import type { SodiumUrines as Urines } from "../../../lib/questions/sodium-urines"
import { count, counted, dayInFull } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import { missingWords, urineSource } from "../diet-part-words"
import type { ChosenMonth } from "../months"
import { sodiumHref } from "./search-params"
import styles from "./sodium.module.css"

const whyNot = { ...missingWords, number: "a creatinine with < or > alone" }

/** How many 24-hour urines of the last 12 months are complete by their creatinine, doubtful, or cannot be judged. */
export function SodiumUrines({ urines, chosen }: { urines: Urines[]; chosen: ChosenMonth }) {
  const of = (completeness: Urines["completeness"]) =>
    urines.filter((one) => one.completeness === completeness)
  const total = sum(urines)
  const [doubtful] = of("doubtful")
  return (
    <Theme id="urines" title="24-hour urines" note={`The 12 months to ${dayInFull(chosen.asOf)}`}>
      {total === 0 ? (
        <p className={styles.none}>No one brought a 24-hour urine with sodium.</p>
      ) : (
        <ul className={styles.lines}>
          <li>
            <strong>{count(sum(of("complete")))}</strong> of {count(total)} complete by their creatinine.
          </li>
          <li>
            <strong>{count(sum(of("doubtful")))}</strong> doubtful
            {doubtful === undefined ? (
              "."
            ) : (
              <>
                , of{" "}
                <Link
                  href={sodiumHref({ month: chosen.param, list: "doubtful-urine" }, "people")}
                  prefetch={false}
                >
                  {counted(doubtful.people, "person", "people")}
                </Link>
                : too little creatinine for a whole day.
              </>
            )}
          </li>
          <li>
            <strong>{count(sum(of("cannot be judged")))}</strong> not judged{whyWords(of("cannot be judged"))}
            .
          </li>
        </ul>
      )}
      <p className={styles.lead}>
        Every one counts in the means, complete or not, as the definitions take every record; one that is not
        complete makes sodium look lower than it is. {urineSource}
      </p>
    </Theme>
  )
}

function sum(urines: readonly Urines[]): number {
  return urines.reduce((before, one) => before + one.collections, 0)
}

function whyWords(urines: readonly Urines[]): string {
  const reasons = urines.flatMap(({ missing, collections }) =>
    missing === null ? [] : [`${whyNot[missing]}: ${count(collections)}`],
  )
  return reasons.length === 0 ? "" : ` (${reasons.join("; ")})`
}
