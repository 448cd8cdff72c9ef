import Link from "next/link"
import { proposeSettings } from "../../lib/domain/setting-proposal"
import type { Settings } from "../../lib/domain/settings"
import styles from "./month-what-if.module.css"
import { settingsHref, type SettingTexts } from "./settings/search-params"

/** The questions asked most; each is shown beside what is, and nothing is saved by looking. */
const choices: readonly { words: string; texts: SettingTexts }[] = [
  { words: "target below 120/80", texts: { "bp.systolicTarget": "120", "bp.diastolicTarget": "80" } },
  { words: "target below 140/90", texts: { "bp.systolicTarget": "140", "bp.diastolicTarget": "90" } },
  { words: "pressures of the last 6 months", texts: { "bp.windowMonths": "6" } },
  { words: "pressures of the last 24 months", texts: { "bp.windowMonths": "24" } },
  { words: "several means four classes", texts: { "drugs.several": "4" } },
]

/** One line that leads from the month to what other settings would make of it; those that stand already are left out. */
export function MonthWhatIf({ settings }: { settings: Settings }) {
  const others = choices.filter(({ texts }) => {
    const { changed, problems } = proposeSettings(settings, texts)
    return changed.length > 0 && problems.length === 0
  })
  return (
    <nav aria-label="What if" className={styles.line}>
      <span>What if:</span>
      {others.map(({ words, texts }) => (
        <Link key={words} href={settingsHref(texts)} prefetch={false}>
          {words}
        </Link>
      ))}
      <Link href="/settings" prefetch={false}>
        all other choices
      </Link>
    </nav>
  )
}
