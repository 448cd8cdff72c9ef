"use client"

import { useRef, useState } from "react"
import { Button } from "../../../_ui/button"
import styles from "./note-text.module.css"

/** A text to be taken along: shown as it will be copied, and chosen as a whole where the browser refuses to copy. */
export function NoteText({ text }: { text: string }) {
  const block = useRef<HTMLTextAreaElement>(null)
  const [said, say] = useState("")
  const copy = () =>
    copied(text).then(
      () => say("Copied."),
      () => {
        block.current?.focus()
        block.current?.select()
        say("The browser did not allow copying; the text is selected.")
      },
    )
  return (
    <div className={styles.note}>
      <textarea
        ref={block}
        readOnly
        className={styles.text}
        aria-label="Summary for a note"
        rows={text.split("\n").length + 1}
        value={text}
      />
      <p className={styles.printed}>{text}</p>
      <div className={styles.copy}>
        <Button onClick={copy}>Copy</Button>
        <span role="status">{said}</span>
      </div>
    </div>
  )
}

/** A site without a certificate has no clipboard at all. */
async function copied(text: string): Promise<void> {
  await navigator.clipboard.writeText(text)
}
