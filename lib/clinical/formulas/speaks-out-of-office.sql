-- Tells which pressure represents a patient on a day: true for the one out of the office (home average or 24-hour mean, the
-- later of both), false for the one in the office. One out of the office goes first while it is fresh, unless a later office
-- pressure is severe; then the office within the window; then the one out of the office within the window.
-- shape: the days of the latest pressure in and out of the office, DATE; whether the office one was severe, BOOLEAN;
--   the days after which the window and the fresh days are open, DATE -> BOOLEAN
-- absent: null when no pressure is in its window; a day is null where there is no such pressure
-- throws: nothing
-- source: the project's definitions, section on blood pressure; common practice, no source
-- example: speaks_out_of_office(date '2026-10-20', false, date '2026-10-01', date '2025-10-31', date '2026-08-02') = true
create or replace macro speaks_out_of_office(office_on, is_office_severe, out_of_office_on, window_after, fresh_after) as
  case
    -- Without an office day this is unknown, and the last branch answers as it would.
    when out_of_office_on > fresh_after
      and not (office_on > window_after and office_on > out_of_office_on and is_office_severe)
      then true
    when office_on > window_after then false
    when out_of_office_on > least(window_after, fresh_after) then true
  end;
