-- +goose Up
-- +goose StatementBegin
create trigger events_never_change before update on events
begin
    select raise(abort, 'events are only ever added');
end;
-- +goose StatementEnd

-- +goose StatementBegin
create trigger events_never_go before delete on events
begin
    select raise(abort, 'events are only ever added');
end;
-- +goose StatementEnd
