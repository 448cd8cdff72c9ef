/** The public ids of a page of a list, one a row: a step for a question that is asked of those listed. */
export const listedIds = `listed as (
  select id as public_id
  from (select unnest(string_split(nullif(cast($listed_ids as varchar), ''), ',')) as id) as ids
)`
