-- Whose facts a record's facts are: test records own none.
-- is_shared: the person has several records, so that one fact may have been brought under two of them.
with records as (
  select
    identities.record_id,
    identities.patient_id,
    count(*) over (partition by identities.patient_id) > 1 as is_shared
  from identities
  where not identities.is_test
)
select records.record_id, records.patient_id, records.is_shared
from records
join people on people.patient_id = records.patient_id
