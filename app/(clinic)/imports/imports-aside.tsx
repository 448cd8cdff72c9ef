import { Button } from "../../_ui/button"
import { count } from "../../../lib/speech/format"
import { AsidePart, ScreenTitle } from "../../_ui/screen"
import { buildAgain } from "./actions"
import type { ImportAnswers } from "./import-answers"
import { instantInFull } from "./import-words"
import styles from "./imports.module.css"

/** How fresh the figures are, and how much waits for a person. */
export function ImportsAside({ answers, wrongData }: { answers: ImportAnswers; wrongData: number }) {
  const { build, timeZone, drugs } = answers
  const isBuilding = answers.isRefreshing || build?.status === "running"
  const waiting = [
    { href: "#drugs", number: drugs?.texts.length ?? 0, words: "drug texts not fully read" },
    { href: "#held", number: answers.held?.total ?? 0, words: "rows held for an unknown patient" },
    { href: "#wrong", number: wrongData, words: "remarks of clinicians that data are wrong" },
    { href: "#loinc", number: answers.loinc?.length ?? 0, words: "laboratory codes on no list" },
  ]
  return (
    <>
      <ScreenTitle title="Imports">
        {isBuilding ? (
          <span role="status">The figures are being computed.</span>
        ) : build?.status === "done" ? (
          `Figures computed ${instantInFull(build.finishedAt ?? build.startedAt, timeZone)}.`
        ) : build ? (
          "The last build of the figures failed."
        ) : (
          "No figures have been computed yet."
        )}
      </ScreenTitle>
      <AsidePart title="Waits for a person">
        {waiting.every((one) => one.number === 0) ? <p className="soft">Nothing.</p> : null}
        <ul className={styles.waiting}>
          {waiting
            .filter((one) => one.number > 0)
            .map((one) => (
              <li key={one.href}>
                <a href={one.href}>
                  <strong>{count(one.number)}</strong> {one.words}
                </a>
              </li>
            ))}
        </ul>
      </AsidePart>
      <AsidePart>
        <form action={buildAgain}>
          <Button type="submit" disabled={isBuilding}>
            Compute the figures anew
          </Button>
        </form>
      </AsidePart>
    </>
  )
}
