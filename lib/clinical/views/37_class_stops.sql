-- Every day on which a class stopped being active, with the day it was active again and the first counted reading
-- of the 30 days after.
with stops as (
  select r.patient_id, r.word as class, r.ends_on as stopped_on, r.next_started_on
  from drug_runs as r
  where r.what = 'class' and r.ends_on is not null
),
readings as (
  select stops.patient_id, stops.class, stops.stopped_on, min(c.day) as reading_on
  from stops
  join counted_days as c
    on c.patient_id = stops.patient_id and c.day > stops.stopped_on and c.day <= stops.stopped_on + 30
  group by stops.patient_id, stops.class, stops.stopped_on
)
select stops.patient_id, stops.class, stops.stopped_on, stops.next_started_on, readings.reading_on
from stops
left join readings
  on readings.patient_id = stops.patient_id
  and readings.class = stops.class
  and readings.stopped_on = stops.stopped_on
