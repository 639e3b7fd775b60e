package app_test

import (
	"bytes"
	"io"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// served starts a service that listens and keeps jobs in a new file, and connects to it.
func served(t *testing.T, opts app.Options) (*grpc.ClientConn, string) {
	t.Helper()
	if opts.Data == "" {
		opts.Data = filepath.Join(t.TempDir(), "jobs.db")
	}
	conn := dial(t, opts)
	address := conn.Target()
	return conn, address
}

func stretch(what string, start, end time.Time) *v1.BayBlock {
	return &v1.BayBlock{What: what, StartTime: timestamppb.New(start), EndTime: timestamppb.New(end)}
}

func berlin(t *testing.T) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Berlin")
	require.NoError(t, err)
	return zone
}

// fetched gets a calendar over HTTP and reads it with another library than the one that wrote it.
func fetched(t *testing.T, url string) (map[string]ical.Event, *http.Response) {
	t.Helper()
	resp, err := http.Get(url)
	require.NoError(t, err)
	src, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	require.Equal(t, http.StatusOK, resp.StatusCode, string(src))
	assert.Equal(t, "text/calendar; charset=utf-8", resp.Header.Get("Content-Type"))
	wellFormed(t, string(src))
	read, err := ical.NewDecoder(bytes.NewReader(src)).Decode()
	require.NoError(t, err)
	out := map[string]ical.Event{}
	for _, event := range read.Events() {
		out[event.Props.Get(ical.PropUID).Value] = event
	}
	return out, resp
}

// wellFormed holds RFC 5545 3.1: lines end with CRLF and have up to 75 octets.
func wellFormed(t *testing.T, src string) {
	t.Helper()
	require.True(t, strings.HasSuffix(src, "\r\n"))
	for line := range strings.SplitSeq(strings.TrimSuffix(src, "\r\n"), "\r\n") {
		assert.LessOrEqual(t, len(line), 75, line)
		assert.NotContains(t, line, "\n")
		assert.NotContains(t, line, "\r")
	}
}

// booked books the finish of the job "spring" on both sides of the change to summer time of 2026-03-29.
func booked(t *testing.T, bookings v1.BookingServiceClient, bay string, day int) *v1.RecordResponse {
	t.Helper()
	zone := berlin(t)
	done, err := bookings.BookBay(t.Context(), &v1.BookBayRequest{
		Name: "jobs/spring", Bay: bay, What: &v1.BookBayRequest_Blocks{Blocks: &v1.BayBlocks{Blocks: []*v1.BayBlock{
			stretch("finish", time.Date(2026, 3, day, 13, 0, 0, 0, zone), time.Date(2026, 3, day, 17, 0, 0, 0, zone)),
			stretch("finish", time.Date(2026, 3, 30, 8, 0, 0, 0, zone), time.Date(2026, 3, 30, 10, 0, 0, 0, zone)),
		}}},
	})
	require.NoError(t, err)
	return done
}

// at reads where an entry stands.
func at(t *testing.T, e ical.Event) (start, end time.Time) {
	t.Helper()
	start, err := e.DateTimeStart(time.UTC)
	require.NoError(t, err)
	end, err = e.DateTimeEnd(time.UTC)
	require.NoError(t, err)
	return start, end
}

// A booking is in the calendars of the job and of the bay, with equal times on both sides of the change to summer time; a move
// changes the same entries; a cancelled job strikes them out.
func TestCalendarsFollowABooking(t *testing.T) {
	conn, addr := served(t, app.Options{})
	jobs, bookings := v1.NewJobServiceClient(conn), v1.NewBookingServiceClient(conn)
	estate(t, jobs, "spring")
	done := booked(t, bookings, "bay-1", 27)
	require.Len(t, done.GetEvents(), 1)
	assert.Equal(t, "bay-1", done.GetEvents()[0].GetDetails().GetBay().GetBay())
	assert.Len(t, done.GetJob().GetBay().GetBlocks(), 2)

	zone := berlin(t)
	first, _ := fetched(t, "http://"+addr+"/calendar/jobs/spring.ics")
	require.Len(t, first, 2)
	hours := map[time.Time]time.Time{}
	for _, e := range first {
		start, end := at(t, e)
		hours[start.In(zone)] = end.In(zone)
		assert.Equal(t, "0", e.Props.Get(ical.PropSequence).Value)
		assert.Equal(t, "bay-1", e.Props.Get(ical.PropLocation).Value)
	}
	assert.Equal(t, map[time.Time]time.Time{
		time.Date(2026, 3, 27, 13, 0, 0, 0, zone): time.Date(2026, 3, 27, 17, 0, 0, 0, zone),
		time.Date(2026, 3, 30, 8, 0, 0, 0, zone):  time.Date(2026, 3, 30, 10, 0, 0, 0, zone),
	}, hours)

	// It moves by a day, in part, and is told to who follows.
	assert.Empty(t, booked(t, bookings, "bay-1", 27).GetEvents(), "the same booking again is nothing new")
	booked(t, bookings, "bay-1", 28)
	moved, _ := fetched(t, "http://"+addr+"/calendar/jobs/spring.ics")
	require.Len(t, moved, 2)
	rose := 0
	for uid, e := range moved {
		was, there := first[uid]
		require.True(t, there, "the same entry, by its name")
		oldStart, _ := at(t, was)
		start, _ := at(t, e)
		if start.Equal(oldStart) {
			assert.Equal(t, "0", e.Props.Get(ical.PropSequence).Value)
			continue
		}
		rose++
		assert.Equal(t, oldStart.Add(24*time.Hour), start)
		assert.Equal(t, "1", e.Props.Get(ical.PropSequence).Value)
	}
	assert.Equal(t, 1, rose)

	// To another bay and off.
	booked(t, bookings, "bay-2", 28)
	left, _ := fetched(t, "http://"+addr+"/calendar/bays/bay-1.ics")
	assert.Empty(t, left, "it has left the bay")
	_, err := jobs.CancelJob(t.Context(), &v1.CancelJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	off, _ := fetched(t, "http://"+addr+"/calendar/jobs/spring.ics")
	require.Len(t, off, 2)
	for uid, e := range off {
		require.Contains(t, first, uid)
		state, err := e.Status()
		require.NoError(t, err)
		assert.Equal(t, ical.EventCancelled, state)
	}
}

func TestACalendarSaysWhenNothingHasChanged(t *testing.T) {
	conn, addr := served(t, app.Options{})
	jobs, bookings := v1.NewJobServiceClient(conn), v1.NewBookingServiceClient(conn)
	estate(t, jobs, "spring")
	soon := time.Now().Add(48 * time.Hour).Truncate(time.Hour)
	book := func(start time.Time) {
		_, err := bookings.BookBay(t.Context(), &v1.BookBayRequest{Name: "jobs/spring", Bay: "bay-1", What: &v1.BookBayRequest_Blocks{
			Blocks: &v1.BayBlocks{Blocks: []*v1.BayBlock{stretch("finish", start, start.Add(time.Hour))}},
		}})
		require.NoError(t, err)
	}
	book(soon)
	for _, url := range []string{"http://" + addr + "/calendar/jobs/spring.ics", "http://" + addr + "/calendar/bays/bay-1.ics"} {
		events, resp := fetched(t, url)
		assert.Len(t, events, 1)
		again := func() int {
			req, err := http.NewRequest(http.MethodGet, url, nil)
			require.NoError(t, err)
			req.Header.Set("If-None-Match", resp.Header.Get("ETag"))
			answer, err := http.DefaultClient.Do(req)
			require.NoError(t, err)
			require.NoError(t, answer.Body.Close())
			return answer.StatusCode
		}
		require.NotEmpty(t, resp.Header.Get("ETag"))
		assert.Equal(t, http.StatusNotModified, again())
		book(soon.Add(time.Hour))
		assert.Equal(t, http.StatusOK, again())
		book(soon)
	}
	for path, want := range map[string]int{
		"/calendar/jobs/nobody.ics": http.StatusNotFound, "/calendar/jobs/spring": http.StatusNotFound, "/calendar/jobs/Spring.ics": http.StatusBadRequest,
		"/calendar/bays/empty.ics": http.StatusOK,
	} {
		resp, err := http.Get("http://" + addr + path)
		require.NoError(t, err)
		require.NoError(t, resp.Body.Close())
		assert.Equal(t, want, resp.StatusCode, path)
	}
}

// The work of an inspected job is laid into the hours of the shop's catalogue.
func TestWorkIsLaidIntoTheShopsHours(t *testing.T) {
	conn, _ := served(t, app.Options{})
	jobs, bookings := v1.NewJobServiceClient(conn), v1.NewBookingServiceClient(conn)
	estate(t, jobs, "spring")
	ask := func() (*v1.RecordResponse, error) {
		return bookings.BookBay(t.Context(), &v1.BookBayRequest{Name: "jobs/spring", Bay: "bay-1", What: &v1.BookBayRequest_Work{
			// The Saturday before the change to summer time, a quarter of an hour before the bay closes.
			Work: &v1.BayWork{StartTime: timestamppb.New(time.Date(2026, 3, 28, 12, 45, 0, 0, berlin(t)))},
		}})
	}
	_, err := ask()
	require.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.Contains(t, err.Error(), "inspect the vehicle first")

	_, err = jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: found("bonnet", "roof")})
	require.NoError(t, err)
	done, err := ask()
	require.NoError(t, err)
	blocks := done.GetJob().GetBay().GetBlocks()
	require.NotEmpty(t, blocks)
	first, second := blocks[0], blocks[1]
	assert.Equal(t, time.Date(2026, 3, 28, 12, 45, 0, 0, berlin(t)).UTC(), first.GetStartTime().AsTime())
	assert.Equal(t, time.Date(2026, 3, 28, 13, 0, 0, 0, berlin(t)).UTC(), first.GetEndTime().AsTime())
	assert.Equal(t, time.Date(2026, 3, 30, 8, 0, 0, 0, berlin(t)).UTC(), second.GetStartTime().AsTime(), "the shop opens on Monday at eight by its clock")
	assert.Equal(t, "finish", blocks[len(blocks)-2].GetWhat())
}

func TestBookingsThatCannotBe(t *testing.T) {
	conn, _ := served(t, app.Options{})
	jobs, bookings := v1.NewJobServiceClient(conn), v1.NewBookingServiceClient(conn)
	estate(t, jobs, "spring")
	noon := time.Date(2026, 3, 27, 12, 0, 0, 0, time.UTC)
	blocks := func(all ...*v1.BayBlock) *v1.BookBayRequest {
		return &v1.BookBayRequest{Name: "jobs/spring", Bay: "bay-1", What: &v1.BookBayRequest_Blocks{Blocks: &v1.BayBlocks{Blocks: all}}}
	}
	work := func(w *v1.BayWork) *v1.BookBayRequest {
		return &v1.BookBayRequest{Name: "jobs/spring", Bay: "bay-1", What: &v1.BookBayRequest_Work{Work: w}}
	}
	good := stretch("finish", noon, noon.Add(time.Hour))
	noBay := blocks(good)
	noBay.Bay = "Bay 1"
	for _, row := range []struct {
		name  string
		ask   *v1.BookBayRequest
		field string
	}{
		{"no bay's name", noBay, "bay"},
		{"nothing to book", &v1.BookBayRequest{Name: "jobs/spring", Bay: "bay-1"}, "what"},
		{"no blocks", blocks(), "blocks.blocks"},
		{"a block without work", blocks(stretch("", noon, noon.Add(time.Hour))), "blocks.blocks[0].what"},
		{"a block that ends before it starts", blocks(stretch("finish", noon, noon)), "blocks.blocks[0].end_time"},
		{"a block without a start", blocks(&v1.BayBlock{What: "finish", EndTime: timestamppb.New(noon)}), "blocks.blocks[0].start_time"},
		{"blocks that overlap", blocks(good, good), "blocks.blocks[1].start_time"},
		{"no start", work(&v1.BayWork{}), "work.start_time"},
		{"no zone", work(&v1.BayWork{StartTime: timestamppb.New(noon), Opening: &v1.OpeningHours{Zone: "Europe/Berln"}}), "work.opening.zone"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := bookings.BookBay(t.Context(), row.ask)
			require.Equal(t, codes.InvalidArgument, status.Code(err), "%v", err)
			assert.Contains(t, fieldsOf(t, err), row.field)
		})
	}
	_, err := jobs.CancelJob(t.Context(), &v1.CancelJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	_, err = bookings.BookBay(t.Context(), blocks(good))
	require.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.Contains(t, err.Error(), "book a new job")
}

// fieldsOf are the fields that a status complains of.
func fieldsOf(t *testing.T, err error) []string {
	t.Helper()
	var fields []string
	for _, detail := range status.Convert(err).Details() {
		if bad, ok := detail.(*errdetails.BadRequest); ok {
			for _, v := range bad.GetFieldViolations() {
				fields = append(fields, v.GetField())
			}
		}
	}
	require.NotEmpty(t, fields, "%v", err)
	return fields
}

// Bay time is a part of a job's details: given when it is made, changed and taken away by a mask.
func TestBayTimeIsAPartOfTheDetails(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "other")
	noon := time.Date(2026, 3, 27, 12, 0, 0, 0, time.UTC)
	bay := &v1.BayBooking{Bay: "bay-1", Blocks: []*v1.BayBlock{stretch("finish", noon, noon.Add(time.Hour))}}
	made, err := jobs.CreateJob(t.Context(), &v1.CreateJobRequest{JobId: "spring", Job: &v1.Job{Vehicle: "vehicles/estate", Bay: bay}})
	require.NoError(t, err)
	assert.Equal(t, "bay-1", made.GetBay().GetBay())

	change := &v1.Job{Name: "jobs/spring", Label: "spring", Bay: bay}
	same, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: change, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"bay"}}})
	require.NoError(t, err)
	assert.Equal(t, made.GetLastSequence(), same.GetLastSequence(), "nothing has changed")
	labelled, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: change, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"label"}}})
	require.NoError(t, err)
	assert.Equal(t, "bay-1", labelled.GetBay().GetBay(), "another change leaves it")
	bad := &v1.Job{Name: "jobs/spring", Bay: &v1.BayBooking{Bay: "bay-1", Blocks: []*v1.BayBlock{stretch("finish", noon, noon)}}}
	_, err = jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: bad})
	assert.Equal(t, []string{"job.bay.blocks[0].end_time"}, fieldsOf(t, err))
	off, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: &v1.Job{Name: "jobs/spring"}, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"bay"}}})
	require.NoError(t, err)
	assert.Nil(t, off.GetBay())
}
