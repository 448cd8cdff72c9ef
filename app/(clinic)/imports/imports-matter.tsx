import Link from "next/link"
import { Theme } from "../../_ui/screen"
import { BuildState } from "./build-state"
import { DrugTexts } from "./drug-texts"
import { HeldRows } from "./held-rows"
import type { ImportAnswers } from "./import-answers"
import { ImportEntryView } from "./import-entry"
import styles from "./imports.module.css"
import { LoincCodes } from "./loinc-codes"
import { importsHref, type ImportsView } from "./search-params"
import { UploadForm } from "./upload-form"
import { WrongData } from "./wrong-data"
import type { WrongDataAnswers } from "./wrong-data-answers"

/** Bringing an extract in, what came of those before, and what waits for a person. */
export function ImportsMatter(props: {
  answers: ImportAnswers
  view: ImportsView
  mayReadRows: boolean
  wrong: WrongDataAnswers
}) {
  const { answers, view, mayReadRows, wrong } = props
  const { imports, timeZone } = answers
  const isAnythingStored = view.before !== null || imports.some((entry) => entry.status === "done")
  return (
    <>
      <BuildState answers={answers} />
      <Theme title="Bring in an extract">
        <UploadForm />
      </Theme>
      <Theme title="History" id="history">
        {imports.length === 0 ? <p className={styles.lead}>Nothing has been brought in yet.</p> : null}
        {imports.map((entry, place) => (
          <ImportEntryView
            key={entry.id}
            entry={entry}
            timeZone={timeZone}
            isOpen={place === 0 && view.before === null}
          />
        ))}
        {answers.hasOlder ? (
          <p className={styles.more}>
            <Link href={importsHref({ before: imports.at(-1)?.id ?? null })} prefetch={false}>
              Earlier imports
            </Link>
          </p>
        ) : null}
      </Theme>
      {isAnythingStored ? (
        <>
          <DrugTexts answers={answers} />
          <HeldRows held={answers.held} timeZone={timeZone} mayReadRows={mayReadRows} />
          <WrongData wrong={wrong} />
          <LoincCodes codes={answers.loinc} />
        </>
      ) : null}
    </>
  )
}
