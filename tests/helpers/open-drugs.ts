import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import { readdirSync, readFileSync } from "node:fs"
import { fileURLToPath } from "node:url"

const clinical = fileURLToPath(new URL("../../lib/clinical/", import.meta.url))

/** An order as the matcher sees it; what is left out is empty. */
export type DrugOrder = {
  drug: string
  codeSystem?: string
  code?: string
  route?: string
  asNeeded?: boolean
  patientId?: string
}

/** What a person mapped a drug text to. */
export type DrugMapping = { text: string; ingredients: string[]; isIgnored: boolean }

const text = (value: string | undefined) =>
  value === undefined ? "null" : `'${value.replaceAll("'", "''")}'`

/** The code lists as DuckDB tables, every column text, an empty cell null. */
export async function loadCodeLists(connection: DuckDBConnection): Promise<void> {
  for (const file of readdirSync(`${clinical}codes`)) {
    const table = file.replace(".csv", "").replaceAll("-", "_")
    await connection.run(
      `create table ${table} as select * from read_csv('${clinical}codes/${file}', header = true, all_varchar = true)`,
    )
  }
}

/** A database in memory with the drug views run over these orders, allergy substances and mappings. */
export async function openDrugs(given: {
  orders: readonly DrugOrder[]
  substances?: readonly string[]
  mappings?: readonly DrugMapping[]
}): Promise<DuckDBConnection> {
  const instance = await DuckDBInstance.create(":memory:")
  const connection = await instance.connect()
  await loadCodeLists(connection)
  await connection.run(`
    create table orders_raw (
      order_key varchar, patient_id varchar, drug varchar, code_system varchar, code varchar, route varchar, as_needed boolean
    );
    create table allergies_raw (substance varchar);
    create table drug_name_mappings (text varchar, ingredients varchar[], is_ignored boolean);
  `)
  const orders = given.orders.map(
    (order, at) =>
      `('${at}', ${text(order.patientId ?? "p1")}, ${text(order.drug)}, ${text(order.codeSystem)}, ${text(order.code)}, ${text(order.route)}, ${order.asNeeded ?? "null"})`,
  )
  if (orders.length > 0) await connection.run(`insert into orders_raw values ${orders.join(", ")}`)
  for (const substance of given.substances ?? [])
    await connection.run(`insert into allergies_raw values (${text(substance)})`)
  for (const mapping of given.mappings ?? [])
    await connection.run(
      `insert into drug_name_mappings values (${text(mapping.text)}, [${mapping.ingredients.map(text).join(", ")}]::varchar[], ${mapping.isIgnored})`,
    )
  await runDrugViews(connection)
  return connection
}

/** The drug views in their order, each as a table named after its number. */
export async function runDrugViews(connection: DuckDBConnection): Promise<void> {
  const files = readdirSync(`${clinical}views`).filter((file) => /^1[0-8]_/.test(file))
  for (const file of files.sort()) {
    const select = readFileSync(`${clinical}views/${file}`, "utf8")
    await connection.run(`create table ${file.replace(/^\d+_|\.sql$/g, "")} as ${select}`)
  }
}
