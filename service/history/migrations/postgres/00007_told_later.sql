-- +goose Up
-- Who is stopped is owed what happens meanwhile, so that nothing is missing once it goes on.
-- +goose StatementBegin
create or replace function owe_event() returns trigger language plpgsql as $$
begin
    insert into tellings (listener_id, job_id, sequence, kind, tries, due_at, given_up, why)
    select id, new.job_id, new.sequence, new.kind, 0, new.recorded_at, 0, '' from listeners;
    return null;
end;
$$;
-- +goose StatementEnd
