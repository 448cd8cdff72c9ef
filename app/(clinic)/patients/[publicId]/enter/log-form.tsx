"use client"

import { useActionState, useState } from "react"
import { weekdayAndDay } from "./day-words"
import { sentenceCase } from "../../../../../lib/speech/format"
import { Button } from "../../../../_ui/button"
import { keptForm } from "../../../../_ui/kept-form"
import { enterLog } from "./enter-actions"
import styles from "./enter.module.css"
import { nothingEntered, type EntrySent } from "./entry-sent"
import {
  pressureColumns,
  pressureField,
  readingsEach,
  sittingsUntil,
  timeField,
  usualTimes,
  type Sitting,
} from "./log-grid"
import { fieldProps, Outcome, Wrong } from "./told-field"

const form = "log"
const readingOrder = ["first", "second"]

/** A week of home pressures, morning and evening, two readings each; or lines copied from elsewhere. */
export function LogForm({ publicId, today }: { publicId: string; today: string }) {
  const [sent, send, isSending] = useActionState(enterLog, nothingEntered)
  return (
    <form
      action={send}
      onSubmit={keptForm(send)}
      className={styles.form}
      aria-label="Home-pressure log"
      noValidate
    >
      <input type="hidden" name="publicId" value={publicId} />
      <Fields key={sent.saved} sent={sent} today={today} />
      <div className={styles.foot}>
        <Button type="submit" kind="primary" disabled={isSending}>
          Save readings
        </Button>
        <Outcome sent={sent} noun={["reading", "readings"]} />
      </div>
    </form>
  )
}

function Fields({ sent, today }: { sent: EntrySent; today: string }) {
  const [last, setLast] = useState(sent.typed["until"] ?? today)
  return (
    <>
      <label className={styles.line}>
        <span>Last day</span>
        <input
          {...fieldProps(form, "until", sent)}
          type="date"
          max={today}
          defaultValue={last}
          onChange={({ currentTarget }) => {
            if (/^\d{4}-\d\d-\d\d$/.test(currentTarget.value)) setLast(currentTarget.value)
          }}
        />
      </label>
      <Wrong form={form} name="until" sent={sent} />
      <table className={styles.log}>
        <caption className="visually-hidden">Readings of the week, in mmHg, pulse a minute</caption>
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col">Time</th>
            {readingOrder.map((order) => (
              <th scope="col" key={order}>
                {sentenceCase(order)} <small>systolic / diastolic, pulse</small>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {sittingsUntil(last).map((sitting) => (
            <Row key={sitting.place} sitting={sitting} sent={sent} />
          ))}
        </tbody>
      </table>
      <details open={sent.wrong["lines"] !== undefined || undefined} className={styles.lines}>
        <summary>Or paste lines</summary>
        <label>
          <span>One reading a line: day, time, pressure, and the pulse if it was counted</span>
          <textarea
            {...fieldProps(form, "lines", sent)}
            rows={5}
            placeholder="2026-11-20 08:00 132/84 70"
            defaultValue={sent.typed["lines"]}
          />
        </label>
        <Wrong form={form} name="lines" sent={sent} />
      </details>
    </>
  )
}

function Row({ sitting, sent }: { sitting: Sitting; sent: EntrySent }) {
  const { place, day, half } = sitting
  const when = `${weekdayAndDay(day)}, ${half}`
  const time = timeField(place)
  const readings = Array.from({ length: readingsEach }, (_, reading) => reading)
  const names = [
    time,
    ...readings.flatMap((one) => pressureColumns.map((column) => pressureField(place, one, column))),
  ]
  return (
    <>
      <tr className={half === "morning" ? styles.newDay : undefined}>
        <th scope="row">
          {half === "morning" ? (
            weekdayAndDay(day)
          ) : (
            <span className="visually-hidden">{weekdayAndDay(day)}, </span>
          )}{" "}
          <span className={styles.half}>{half}</span>
        </th>
        <td>
          <input
            {...fieldProps(form, time, sent)}
            type="time"
            aria-label={`${when}: time`}
            defaultValue={sent.typed[time] ?? usualTimes[half]}
          />
        </td>
        {readings.map((reading) => (
          <td key={reading}>
            <Pressure place={place} reading={reading} when={when} sent={sent} />
          </td>
        ))}
      </tr>
      {names.some((name) => sent.wrong[name] !== undefined) ? (
        <tr className={styles.wrong}>
          <td colSpan={2 + readingsEach}>
            {names.map((name) => (
              <Wrong key={name} form={form} name={name} sent={sent} />
            ))}
          </td>
        </tr>
      ) : null}
    </>
  )
}

function Pressure(props: { place: number; reading: number; when: string; sent: EntrySent }) {
  const { place, reading, when, sent } = props
  const order = readingOrder[reading] ?? ""
  return (
    <span className={styles.pressure}>
      <span className={styles.order} aria-hidden="true">
        {order}
      </span>
      {pressureColumns.map((column) => {
        const name = pressureField(place, reading, column)
        return (
          <span key={column} className={column === "pulse" ? styles.pulse : undefined}>
            {column === "diastolic" ? <span aria-hidden="true">/</span> : null}
            <input
              {...fieldProps(form, name, sent)}
              inputMode="numeric"
              placeholder={column === "pulse" ? "pulse" : undefined}
              aria-label={`${when}, ${order}: ${column}`}
              defaultValue={sent.typed[name]}
            />
          </span>
        )
      })}
    </span>
  )
}
