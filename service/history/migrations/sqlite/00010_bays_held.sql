-- +goose Up
-- What was booked before. A text of time is read by its seconds and its fraction apart: SQLite keeps thousandths only.
insert into bays (id, revision)
select distinct json_extract(e.body, '$.bay.id'), 1 from events e
join jobs j on j.id = e.job_id and j.stage <> 'cancelled'
where e.sequence = (select max(l.sequence) from events l where l.job_id = e.job_id and l.kind in ('booked', 'details'))
    and json_extract(e.body, '$.bay.id') is not null;

insert into bay_holds (job_id, start_at, end_at, bay_id)
select t.job_id,
    unixepoch(substr(t.start, 1, 19) || ltrim(substr(t.start, 20), '.0123456789')) * 1000000
        + case when substr(t.start, 20, 1) = '.' then cast(round(cast('0' || substr(t.start, 20) as real) * 1000000) as integer) else 0 end,
    unixepoch(substr(t.end, 1, 19) || ltrim(substr(t.end, 20), '.0123456789')) * 1000000
        + case when substr(t.end, 20, 1) = '.' then cast(round(cast('0' || substr(t.end, 20) as real) * 1000000) as integer) else 0 end,
    t.bay
from (
    select e.job_id, json_extract(e.body, '$.bay.id') as bay, json_extract(b.value, '$.start') as start, json_extract(b.value, '$.end') as end
    from events e
    join jobs j on j.id = e.job_id and j.stage <> 'cancelled'
    join json_each(e.body, '$.bay.blocks') b
    where e.sequence = (select max(l.sequence) from events l where l.job_id = e.job_id and l.kind in ('booked', 'details'))
) t;
