import type { Caller } from "../../../lib/access/caller"
import { may } from "../../../lib/access/permissions"
import { plainToday } from "../../../lib/domain/plain-date"
import { listedPeople } from "../../../lib/questions/listed-people"
import { fullName } from "../../../lib/speech/person-name"
import { store } from "../../../lib/store/client"
import { listWrongData, type WrongData } from "../../../lib/store/clinician-decisions"
import { ask, callerScope } from "../../_http/ask"
import { mayDecide } from "../decisions/may-decide"
import { currentSnapshot } from "../snapshot"
import { clinicTimeZone } from "../time-zone"

const perPage = 50

export type WrongDataAnswers = {
  total: number
  /** Nobody for who may not see people. A name is null where the record was merged or the figures know nobody. */
  found: (WrongData & { name: string | null; maySettle: boolean })[]
}

/** Which people's data clinicians said are wrong; who may not see people gets their number. */
export async function wrongDataAnswers(caller: Caller): Promise<WrongDataAnswers> {
  const on = plainToday(new Date(), await clinicTimeZone())
  const { total, found } = await listWrongData(store(), { scope: await callerScope(), on, take: perPage })
  if (!may(caller, "people.see")) return { total, found: [] }
  const names = await namesOf(found.map((one) => one.publicId))
  return {
    total,
    found: found.map((one) => ({
      ...one,
      name: names.get(one.publicId) ?? null,
      maySettle: mayDecide(caller, one.topic),
    })),
  }
}

async function namesOf(publicIds: readonly string[]): Promise<Map<string, string>> {
  const snapshot = publicIds.length === 0 ? null : await currentSnapshot()
  if (!snapshot) return new Map()
  const people = await ask(listedPeople, { as_of: snapshot.runningAsOf, listed_ids: publicIds.join(",") })
  return new Map(people.map((one) => [one.public_id, fullName(one)]))
}
