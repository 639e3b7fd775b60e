-- +goose Up
-- Who is stopped is owed what happens meanwhile, so that nothing is missing once it goes on.
drop trigger events_are_owed;

-- +goose StatementBegin
create trigger events_are_owed after insert on events
when new.kind in ('booked', 'details', 'plan', 'finished', 'handed-over', 'cancelled')
begin
    insert into tellings (listener_id, job_id, sequence, kind, tries, due_at, given_up, why)
    select id, new.job_id, new.sequence, new.kind, 0, new.recorded_at, 0, '' from listeners;
end;
-- +goose StatementEnd
