import Link from "next/link"
import { settingGroups } from "../../../lib/domain/setting-topic"
import { defaultSettings } from "../../../lib/domain/settings"
import { settingKeys } from "../../../lib/domain/setting-values"
import { counted } from "../../../lib/speech/format"
import { AsidePart, ScreenTitle } from "../../_ui/screen"
import type { SettingsAnswers } from "./settings-answers"
import styles from "./settings.module.css"

/** What the screen is for, its groups, and whether the figures have followed the last change. */
export function SettingsAside({ answers }: { answers: SettingsAnswers }) {
  const { settings } = answers
  const others = settingKeys.filter((key) => settings[key] !== defaultSettings[key]).length
  return (
    <>
      <ScreenTitle title="Settings">
        What the figures mean here.{" "}
        {others === 0
          ? "All settings stand at their defaults."
          : `${counted(others, "value differs", "values differ")} from the default.`}
      </ScreenTitle>
      <FiguresState answers={answers} />
      <AsidePart>
        <nav aria-label="On this page" className={styles.places}>
          {settingGroups.map((group) => (
            <a key={group.id} href={`#${group.id}`}>
              {group.title}
            </a>
          ))}
          <a href="#changes">Changes</a>
        </nav>
      </AsidePart>
      <AsidePart>
        <p className="soft">
          A change counts every month anew. One made on this screen is kept under the name of whoever is
          signed in, one made by command under that of the operating-system user.
        </p>
      </AsidePart>
    </>
  )
}

function FiguresState({ answers }: { answers: SettingsAnswers }) {
  if (answers.isRefreshing)
    return (
      <AsidePart>
        <p role="status">The figures are being computed anew. Until then the earlier ones are shown.</p>
      </AsidePart>
    )
  if (answers.build?.status !== "failed") return null
  return (
    <AsidePart>
      <p role="status">
        The figures could not be computed anew; the earlier ones go on serving. See{" "}
        <Link href="/imports" prefetch={false}>
          Imports
        </Link>
        .
      </p>
    </AsidePart>
  )
}
