"use client"

import { useRouter } from "next/navigation"
import { useState, type FormEvent } from "react"
import { Button } from "../../_ui/button"
import { listed } from "../../../lib/speech/format"
import { factKinds } from "../../../lib/domain/fact-kinds"
import styles from "./upload-form.module.css"
import { sendForm } from "./send-form"

type Sending = { sentBytes: number; totalBytes: number }

/** Sends an extract: one zip file, or its CSV files. Works without a script too, then without the progress. */
export function UploadForm() {
  const router = useRouter()
  const [sending, setSending] = useState<Sending | null>(null)
  const [problem, setProblem] = useState<string | null>(null)
  const [chosen, setChosen] = useState<string[]>([])
  const send = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    setProblem(null)
    setSending({ sentBytes: 0, totalBytes: 0 })
    const answer = await sendForm("/api/imports", new FormData(event.currentTarget), setSending)
    setSending(null)
    if (answer.isTaken) router.push(answer.place)
    else setProblem(answer.message)
  }
  return (
    <form
      className={styles.upload}
      action="/api/imports"
      method="post"
      encType="multipart/form-data"
      onSubmit={(event) => void send(event)}
    >
      <label className={styles.files}>
        <span>A zip file of the extract&rsquo;s folder, or its CSV files</span>
        <input
          type="file"
          name="extract"
          accept=".zip,.csv"
          multiple
          required
          disabled={sending !== null}
          onChange={(event) => setChosen([...(event.target.files ?? [])].map((file) => file.name))}
        />
      </label>
      <p className={styles.about}>
        It may hold {listed(factKinds.map((kind) => `${kind}.csv`))}. Any of them may be missing; what is then
        not brought in stays as it is.
      </p>
      <fieldset disabled={sending !== null}>
        <legend className="visually-hidden">How to bring it in</legend>
        <label>
          <input type="checkbox" name="full" /> This is a full extract: withdraw what it no longer has
        </label>
        <label>
          <input type="checkbox" name="trial" /> Only try: check and count, store nothing
        </label>
      </fieldset>
      <p className={styles.send}>
        <Button type="submit" kind="primary" disabled={sending !== null}>
          Bring in {chosen.length > 1 ? `${chosen.length} files` : ""}
        </Button>
        {sending ? <SendingState sending={sending} /> : null}
      </p>
      {problem === null ? null : (
        <p role="alert" className={styles.problem}>
          {problem}
        </p>
      )}
    </form>
  )
}

function SendingState({ sending }: { sending: Sending }) {
  const share = sending.totalBytes === 0 ? 0 : sending.sentBytes / sending.totalBytes
  return (
    <span role="status">
      {share < 1 ? `Sending, ${Math.round(share * 100)}%.` : "Sent; beginning."}
      <progress max={1} value={share} aria-label="Sent so far" />
    </span>
  )
}
