-- +goose Up
-- +goose StatementBegin
create function refuse_change() returns trigger language plpgsql as $$
begin
    raise exception '% are only ever added', tg_table_name;
end;
$$;
-- +goose StatementEnd

create trigger events_never_change before update or delete or truncate on events
for each statement execute function refuse_change();
