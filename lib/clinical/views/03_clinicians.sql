-- Everybody on the clinic's staff list, by the id that visits and records name.
select s.staff_id, s.name, s.role
from staff_raw as s
