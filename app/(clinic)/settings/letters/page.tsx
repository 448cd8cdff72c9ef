import type { Metadata } from "next"
import { may } from "../../../../lib/access/permissions"
import { letterProblems } from "../../../../lib/letters/letter-problems"
import { languageName } from "../../../../lib/speech/format"
import { requireScreenUser } from "../../../_http/require-user"
import { Screen } from "../../../_ui/screen"
import { clinicTimeZone } from "../../time-zone"
import { inventedLetter } from "./invented-letter"
import { LetterAfter, LetterAside } from "./letter-aside"
import { letterSetting, shownLetters } from "./letter-answers"
import { LetterForm } from "./letter-form"
import { LetterHistory } from "./letter-history"
import { ReasonIds } from "./reason-ids"
import { parseLettersView } from "./search-params"

export const metadata: Metadata = { title: "Letters of the clinic" }

export default async function LetterSettingsPage({ searchParams }: PageProps<"/settings/letters">) {
  const caller = await requireScreenUser("settings.see")
  const view = parseLettersView(await searchParams)
  const [shown, setting] = await Promise.all([shownLetters(view.language), letterSetting(new Date())])
  const { language, texts, version, isInForce, history } = shown
  const isWithValues = setting.settings["outreach.letterValues"] === "yes"
  const isComplete = letterProblems(texts).length === 0
  return (
    <Screen aside={<LetterAside shown={shown} />} after={<LetterAfter isWithValues={isWithValues} />}>
      <LetterForm
        key={`${language} ${version}`}
        language={language}
        languageName={languageName(language)}
        version={version}
        isInForce={isInForce}
        texts={texts}
        preview={isComplete ? inventedLetter({ language, ...texts }, setting) : null}
        mayChange={may(caller, "settings.change")}
      >
        <ReasonIds />
      </LetterForm>
      <LetterHistory history={history} timeZone={await clinicTimeZone()} />
    </Screen>
  )
}
