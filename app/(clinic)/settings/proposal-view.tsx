import Link from "next/link"
import { Suspense } from "react"
import type { Caller } from "../../../lib/access/caller"
import { settingTopics } from "../../../lib/domain/setting-choices"
import type { Proposal } from "../../../lib/domain/setting-proposal"
import { settingName, topicWords } from "../../../lib/domain/setting-values"
import type { SettingTopic } from "../../../lib/domain/setting-topic"
import { sentenceCase } from "../../../lib/speech/format"
import { Caution } from "../../_ui/notice"
import { Theme } from "../../_ui/screen"
import { Outcome } from "./outcome"
import { SaveForm } from "./save-form"
import { proposedTexts, settingsHref } from "./search-params"
import type { SettingsAnswers } from "./settings-answers"
import styles from "./proposal.module.css"

/** What is proposed, what it would make of the history, and the form that saves it. */
export function ProposalView(props: { caller: Caller; answers: SettingsAnswers; proposal: Proposal }) {
  const { caller, answers, proposal } = props
  if (proposal.problems.length > 0) return <Problems proposal={proposal} />
  if (proposal.changed.length === 0) return null
  const { settings, snapshot } = answers
  const texts = proposedTexts(proposal.settings, proposal.changed)
  const topics = settingTopics.filter((topic) => topic.keys.some((key) => proposal.changed.includes(key)))
  return (
    <Theme id="proposal" title="Proposed, not saved">
      <ul className={styles.proposed}>
        {topics.map((topic) => (
          <li key={topic.id}>
            <h3>{topic.name}</h3>
            <p>
              <strong>{sentenceCase(topicWords(topic, proposal.settings))}</strong>
              <span className={styles.instead}>Now: {sentenceCase(topicWords(topic, settings))}</span>
            </p>
            <Link href={settingsHref(without(texts, topic))} prefetch={false}>
              Let go<span className="visually-hidden"> of {topic.name}</span>
            </Link>
          </li>
        ))}
      </ul>
      <Caution>
        <p>
          A changed definition changes what the clinic compares itself with: every month is counted anew, and
          figures noted or reported before no longer match. Clinicians decide; local policy applies.
        </p>
      </Caution>
      {snapshot === null ? (
        <p className={styles.pending}>
          Nobody has been brought in yet, so there is no history to show it on.
        </p>
      ) : (
        <Suspense key={JSON.stringify(texts)} fallback={<Pending />}>
          <Outcome caller={caller} snapshot={snapshot} settings={proposal.settings} />
        </Suspense>
      )}
      <SaveForm texts={texts} />
    </Theme>
  )
}

function Pending() {
  return (
    <div role="status" className={styles.pending}>
      <p>Computing every month under the proposal.</p>
      <progress aria-label="Computing" />
    </div>
  )
}

function Problems({ proposal }: { proposal: Proposal }) {
  return (
    <div role="alert" className={styles.problems}>
      <Caution>
        <p>
          <strong>This cannot be used, and nothing was changed.</strong>
        </p>
        <ul>
          {proposal.problems.map(({ key, message }) => (
            <li key={key}>
              {settingName(key)}: {message}
            </li>
          ))}
        </ul>
      </Caution>
    </div>
  )
}

function without(texts: Partial<Record<string, string>>, topic: SettingTopic) {
  return Object.fromEntries(Object.entries(texts).filter(([name]) => !topic.keys.some((key) => key === name)))
}
