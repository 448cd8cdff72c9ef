-- Every record in force with its own row, and the record its facts belong to: merges are followed to the end.
-- A merge that names itself, nobody, or closes a circle is no link.
with recursive links as (
  select r.patient_id, r.merged_into
  from patient_records_raw as r
  join patient_records_raw as target on target.patient_id = r.merged_into
),
walks as (
  select patient_id as start_id, merged_into as reached_id from links
  union
  select walks.start_id, links.merged_into
  from walks
  join links on links.patient_id = walks.reached_id
),
circular as (
  select distinct start_id from walks where start_id = reached_id
),
sound_links as (
  select links.patient_id, links.merged_into
  from links
  where links.patient_id not in (select start_id from circular)
),
sound_walks as (
  select patient_id as start_id, merged_into as reached_id from sound_links
  union
  select sound_walks.start_id, sound_links.merged_into
  from sound_walks
  join sound_links on sound_links.patient_id = sound_walks.reached_id
),
survivors as (
  select sound_walks.start_id, sound_walks.reached_id
  from sound_walks
  where sound_walks.reached_id not in (select patient_id from sound_links)
)
select
  r.patient_id as record_id,
  coalesce(survivors.reached_id, r.patient_id) as patient_id,
  survivors.reached_id is not null as is_merged,
  coalesce(r.is_test, false) as is_test,
  r.import_id,
  r.line
from patient_records_raw as r
left join survivors on survivors.start_id = r.patient_id
