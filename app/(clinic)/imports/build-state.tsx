import { Button } from "../../_ui/button"
import { Caution } from "../../_ui/notice"
import { buildAgain } from "./actions"
import type { ImportAnswers } from "./import-answers"
import { instantInFull } from "./import-words"
import styles from "./imports.module.css"

/** A build of the figures that failed stands first; the earlier figures go on serving. */
export function BuildState({ answers }: { answers: ImportAnswers }) {
  const { build, timeZone } = answers
  if (build?.status !== "failed" || answers.isRefreshing) return null
  return (
    <div className={styles.build}>
      <Caution>
        <p>
          <strong>The figures could not be computed on {instantInFull(build.startedAt, timeZone)}.</strong>{" "}
          The earlier ones go on serving; what was brought in since is stored and not yet in them.
        </p>
        <p className={styles.message}>{build.message}</p>
        <form action={buildAgain}>
          <Button type="submit">Build again</Button>
        </form>
      </Caution>
    </div>
  )
}
