import Link from "next/link"
import { Caution } from "../../_ui/notice"
import { AsidePart, ScreenTitle, Theme } from "../../_ui/screen"
import { questionLines } from "../../../lib/import/report"
import type { Trial } from "../../../lib/jobs/import-trial"
import { FileCounts } from "./file-counts"
import { rowsSentence } from "./import-words"
import styles from "./imports.module.css"
import { PlainTable } from "./plain-table"

export function TrialAside({ trial }: { trial: Trial }) {
  return (
    <>
      <ScreenTitle title="A trial">
        <p>{trial.source}</p>
        <p>Nothing is stored, and the file is gone when it ends.</p>
      </ScreenTitle>
      <AsidePart>
        <p className={styles.way}>
          <Link href="/imports" prefetch={false}>
            All imports
          </Link>
        </p>
      </AsidePart>
    </>
  )
}

/** What the import would do. */
export function TrialOutcomeView({ trial }: { trial: Trial }) {
  if (trial.status === "running")
    return (
      <div className={styles.progress} role="status">
        <p>Checking and counting {trial.source}.</p>
        <progress aria-label="Under way" />
      </div>
    )
  if (trial.status === "failed") return <Caution>{trial.message}</Caution>
  const { files, question, ignored, firstProblems } = trial.outcome
  return (
    <>
      <Theme title="The import would do this">
        <p className={styles.sentence}>{rowsSentence(files)}</p>
        {question ? (
          <div className={styles.first}>
            <Caution>
              <p>It would stop and ask:</p>
              <ul className={styles.oddities}>
                {questionLines(question).map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </Caution>
          </div>
        ) : null}
        <FileCounts files={files} importId={null} />
        {ignored.length === 0 ? null : <p>Not files of an extract, left out: {ignored.join(", ")}.</p>}
      </Theme>
      {firstProblems.length === 0 ? null : (
        <Theme title="The first rows that would be rejected">
          <PlainTable
            caption="The first rows that would be rejected"
            columns={[{ head: "Line" }, { head: "Column" }, { head: "Reason", isLong: true, label: "" }]}
            rows={firstProblems.map((problem, place) => ({
              key: String(place),
              cells: [`${problem.file} ${problem.line}`, problem.column ?? "", problem.message],
            }))}
          />
        </Theme>
      )}
    </>
  )
}
