import type { Metadata } from "next"
import Link from "next/link"
import { Screen, Theme } from "../../_ui/screen"
import { site } from "../../_http/site"
import { BuildState } from "./build-state"
import { DrugTexts } from "./drug-texts"
import { HeldRows } from "./held-rows"
import { importAnswers } from "./import-answers"
import { ImportEntryView } from "./import-entry"
import { ImportsAside } from "./imports-aside"
import { LoincCodes } from "./loinc-codes"
import { Poll } from "./poll"
import { importsHref, parseImportsView } from "./search-params"
import { UploadForm } from "./upload-form"
import { isWorking } from "./working"

export const metadata: Metadata = { title: "Imports" }

export default async function ImportsPage(props: PageProps<"/imports">) {
  const view = parseImportsView(await props.searchParams)
  const answers = await importAnswers(site().client, view)
  const { imports, timeZone } = answers
  return (
    <Screen aside={<ImportsAside answers={answers} />}>
      <Poll isOn={isWorking(answers)} />
      <BuildState answers={answers} />
      <Theme title="Bring in an extract">
        <UploadForm />
      </Theme>
      <Theme title="History" id="history">
        {imports.length === 0 ? <p className="soft">Nothing has been brought in yet.</p> : null}
        {imports.map((entry, place) => (
          <ImportEntryView
            key={entry.id}
            entry={entry}
            timeZone={timeZone}
            isOpen={place === 0 && view.before === null}
          />
        ))}
        {answers.hasOlder ? (
          <Link href={importsHref({ before: imports.at(-1)?.id ?? null })}>Earlier imports</Link>
        ) : null}
      </Theme>
      <DrugTexts answers={answers} />
      <HeldRows held={answers.held} timeZone={timeZone} />
      <LoincCodes codes={answers.loinc} />
    </Screen>
  )
}
