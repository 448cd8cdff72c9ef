import type { Metadata } from "next"
import { may } from "../../../lib/access/permissions"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { site } from "../../_http/site"
import { Screen } from "../../_ui/screen"
import { importAnswers } from "./import-answers"
import { ImportsAside } from "./imports-aside"
import { ImportsMatter } from "./imports-matter"
import { wrongDataAnswers } from "./wrong-data-answers"
import { Poll } from "../../_ui/poll"
import { parseImportsView } from "./search-params"
import { isWorking } from "./working"

export const metadata: Metadata = { title: "Imports" }

export default async function ImportsPage(props: PageProps<"/imports">) {
  const caller = await requireScreenUser("imports.see")
  const view = parseImportsView(await props.searchParams)
  const [answers, wrong] = await Promise.all([importAnswers(site().client, view), wrongDataAnswers(caller)])
  const mayReadRows = may(caller, "imports.rows")
  if (mayReadRows && answers.held !== null && answers.held.total > 0)
    await recordedOnce(caller, { action: "held-rows.list", detail: { rows: answers.held.total } })
  const people = wrong.found.map((one) => one.publicId)
  if (people.length > 0) await recordedOnce(caller, { action: "patients.list", object: "wrong data", people })
  return (
    <Screen aside={<ImportsAside answers={answers} wrongData={wrong.total} />}>
      <Poll isOn={isWorking(answers)} />
      <ImportsMatter answers={answers} view={view} mayReadRows={mayReadRows} wrong={wrong} />
    </Screen>
  )
}
