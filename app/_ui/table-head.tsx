/** The heads of a table whose rows stand under each other on a phone; the roles keep it a table there. */
export function TableHead({ heads }: { heads: readonly string[] }) {
  return (
    <thead role="rowgroup">
      <HeadRow heads={heads} />
    </thead>
  )
}

/** The row of heads alone, for a table with a row above it. */
export function HeadRow({ heads }: { heads: readonly string[] }) {
  return (
    <tr role="row">
      {heads.map((head) => (
        <th key={head} scope="col" role="columnheader">
          {head}
        </th>
      ))}
    </tr>
  )
}
