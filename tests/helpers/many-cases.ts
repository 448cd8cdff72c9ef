import type pg from "pg"

/** Fills an empty record store with open cases by SQL: every one with a record in force and two reasons, one in five urgent or asked not to be contacted. */
export async function fillWithCases(client: pg.Client, count: number): Promise<void> {
  await client.query(
    "insert into imports(id, source, status, as_of) values (1, 'made', 'done', '2026-10-31')",
  )
  await client.query("insert into patients(patient_id) select 'P' || n from generate_series(1, $1::int) n", [
    count,
  ])
  await client.query(
    `insert into patient_records(import_id, line, key, hash, known_at, patient_id, birth_date, sex, registered_on, site)
     select 1, n, gen_random_uuid(), gen_random_uuid(), now(), 'P' || n, '1960-01-01', 'female', '2020-01-01',
       case when n % 2 = 0 then 'North' else 'South' end
     from generate_series(1, $1::int) n`,
    [count],
  )
  await client.query(
    `insert into outreach_cases(patient_id, state, kept_from, opened_at, tier, place, site, looked_on)
     select 'P' || n, 'open', case when n % 10 = 0 then 'asked not to be contacted' end, now(),
       case when n % 10 = 1 then 'urgent' else 'routine' end, n, case when n % 2 = 0 then 'North' else 'South' end, '2026-10-31'
     from generate_series(1, $1::int) n`,
    [count],
  )
  await client.query(
    `insert into outreach_case_reasons(case_id, patient_id, reason, is_urgent, fact_on, began_on)
     select c.id, c.patient_id, r.reason, false, '2026-01-01', '2026-10-31'
     from outreach_cases c cross join (values ('urine-albumin-due'), ('above-target')) as r (reason)`,
  )
  await client.query("vacuum analyze")
}
