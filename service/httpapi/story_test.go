package httpapi_test

// call is one request of the story; keep names what later requests need, by its place in the answer.
var story = []struct {
	method, path, body string
	keep               map[string]string
}{
	{"POST", "/v1:estimateJob", `{"vehicle": {"size": "VEHICLE_SIZE_MEDIUM", "kept": "VEHICLE_KEPT_OUTSIDE"}, "goal": {"level": "GOAL_LEVEL_ENHANCE"}}`, nil},
	{"POST", "/v1/vehicles?vehicle_id=estate&request_id=a", `{"label": "invented estate", "size": "VEHICLE_SIZE_MEDIUM", "built_year": 2019}`, nil},
	{"GET", "/v1/vehicles/estate", "", nil},
	{"GET", "/v1/vehicles?page_size=10&label_prefix=inv", "", nil},
	{"PATCH", "/v1/vehicles/estate?update_mask=notes", `{"label": "invented estate", "notes": "towbar"}`, nil},
	{"POST", "/v1/jobs?job_id=spring&request_id=b", `{"vehicle": "vehicles/estate", "label": "spring visit", "book_time": "2027-03-01T08:00:00Z"}`, nil},
	{"GET", "/v1/jobs/spring?view=JOB_VIEW_FULL", "", nil},
	{"GET", "/v1/jobs?vehicle=vehicles/estate&stages=JOB_STAGE_BOOKED&stages=JOB_STAGE_INSPECTED", "", nil},
	{"PATCH", "/v1/jobs/spring?update_mask=book_time", `{"vehicle": "vehicles/estate", "book_time": "2027-03-02T08:00:00Z"}`, nil},

	{"POST", "/v1:recommend", `{"inspection": ` + inspection + `}`, nil},
	{"POST", "/v1:explain", `{"inspection": ` + inspection + `, "panel_id": "bonnet", "would": "STEP_CUT"}`, nil},
	{"POST", "/v1:mapDecision", `{"inspection": ` + inspection + `, "panel_id": "bonnet", "x": "softness", "y": "severity"}`, nil},
	{"POST", "/v1:judgeTrial", `{"inspection": ` + inspection + `, "panel_id": "bonnet", "trials": [` + trial + `]}`, nil},
	{"GET", "/v1/facts?prefix=film.", "", nil},
	{"POST", "/v1:planJob", `{"inspection": ` + inspection + `, "bay": {"start_time": "2027-03-02T08:00:00Z", "opening": ` + opening + `, "uid": "jobs-spring"}}`, nil},
	{"POST", "/v1:fitHours", `{"inspection": ` + inspection + `, "hours": 1.5}`, nil},

	{"POST", "/v1/webhooks?webhook_id=booking", `{"url": "http://127.0.0.1:9/events", "allow_private": true}`, nil},
	{"GET", "/v1/webhooks/booking", "", nil},
	{"GET", "/v1/webhooks", "", nil},
	{"POST", "/v1/webhooks/booking:rotateSecret", `{}`, nil},
	{"PATCH", "/v1/webhooks/booking?update_mask=stopped", `{"url": "http://127.0.0.1:9/events", "stopped": true}`, nil},

	{"POST", "/v1/jobs/spring:recordInspection", `{"entry": {"request_id": "c", "recorded_by": "bay 2"}, "inspection": ` + inspection + `}`, nil},
	{"POST", "/v1/jobs/spring:recordReadings", `{"readings": [{"panel_id": "bonnet", "time": "READINGS_TIME_BEFORE", "gloss": [{"spot": "d", "at60_gu": [84.2, 84.3, 84.1]}]}]}`, nil},
	{"POST", "/v1/jobs/spring:recordTrial", `{"trial": {"panel_id": "bonnet", "trial": ` + trial + `}}`, map[string]string{"trial": "events.0.sequence"}},
	{"POST", "/v1/jobs/spring:correctEvent", `{"correction": {"sequence": "$trial", "why": "the minutes were read wrong", "trial": {"panel_id": "bonnet", "trial": ` + trial + `}}}`, nil},
	{"POST", "/v1/jobs/spring:advise", `{}`, map[string]string{"decision": "events.0.sequence"}},
	{"GET", "/v1/jobs/spring:explainDecision?sequence=$decision", "", nil},
	{"POST", "/v1/jobs/spring:recordPlan", `{"plan": {"panels": [{"panel_id": "bonnet", "ladder": "LADDER_FINISH"}]}}`, nil},
	{"POST", "/v1/jobs/spring:bookBay", `{"bay": "bay-2", "work": {"start_time": "2027-03-02T08:00:00Z", "opening": ` + opening + `}}`, nil},
	{"GET", "/v1/jobs/spring/calendar", "", nil},
	{"GET", "/v1/bays/bay-2/calendar", "", nil},
	{"POST", "/v1/jobs/spring:recordProgress", `{"progress": [{"panel_id": "bonnet", "step": "STEP_FINISH", "state": "STEP_STATE_DONE", "minutes": 31.5}]}`, nil},
	{"POST", "/v1/jobs/spring:finish", `{"closing": {"note": "wash by hand for a week"}}`, nil},
	{"POST", "/v1/jobs/spring:handOver", `{}`, nil},
	{"GET", "/v1/jobs/spring/events?page_size=100", "", nil},
	{"GET", "/v1/jobs/spring/report?locale=en", "", nil},
	{"POST", "/v1/jobs/spring/reportLinks", `{}`, map[string]string{"link": "name"}},
	{"GET", "/v1/jobs/spring/reportLinks", "", nil},
	{"DELETE", "/v1/$link", "", nil},
	{"GET", "/v1/vehicles/estate/film", "", nil},
	{"GET", "/v1/webhooks/booking/deliveries?page_size=20", "", nil},
	{"POST", "/v1/webhooks/booking:redeliver", `{}`, nil},
	{"DELETE", "/v1/webhooks/booking", "", nil},
	{"GET", "/v1/lessons?softness=SOFTNESS_SOFT&severity=2", "", nil},
	{"GET", "/v1/ruleHints?least_outcomes=3", "", nil},
	{"POST", "/v1/jobs?job_id=summer", `{"vehicle": "vehicles/estate"}`, nil},
	{"POST", "/v1/jobs/summer:cancel", `{"closing": {"note": "the owner moved away"}}`, nil},
	{"POST", "/v1/vehicles?vehicle_id=spare", `{"label": "made by mistake"}`, map[string]string{"vehicle": "etag"}},
	{"DELETE", "/v1/vehicles/spare?etag=$vehicle", "", nil},

	{"GET", "/v1/rulesStatus", "", map[string]string{"set": "rule_set"}},
	{"POST", "/v1/rules:check", `{"files": {"start.yaml": "table: start\n"}}`, nil},
	{"POST", "/v1/rules:test", `{"failures_only": true}`, nil},
	{"GET", "/v1/ruleTables", "", nil},
	{"GET", "/v1/rules?table=start&page_size=3", "", nil},
	{"GET", "/v1/ruleTables/start/rules/soft-paint-starts-mild", "", map[string]string{"rule": "etag"}},
	{"PATCH", "/v1/ruleTables/start/rules/soft-paint-starts-mild?update_mask=because&validate_only=true", `{"because": "Soft paint needs little.", "etag": "$rule"}`, nil},
	{"GET", "/v1/ruleSets?page_size=5", "", nil},
	{"GET", "/v1/ruleSets/$set", "", nil},
	{"GET", "/v1/ruleFiles", "", nil},
	{"POST", "/v1/ruleFiles", `{"name": "NOTES.md", "text": "ours\n"}`, map[string]string{"notes": "files.0.etag"}},
	{"GET", "/v1/ruleFiles/NOTES.md", "", nil},
	{"PATCH", "/v1/ruleFiles/NOTES.md", `{"text": "ours alone\n", "etag": "$notes"}`, map[string]string{"notes": "files.0.etag"}},
	{"POST", "/v1/ruleFiles:batchUpdate", `{"edits": [{"update": {"name": "NOTES.md", "text": "ours\n", "etag": "$notes"}}]}`, map[string]string{"notes": "files.0.etag"}},
	{"DELETE", "/v1/ruleFiles/NOTES.md?etag=$notes", "", nil},
	{"POST", "/v1/rules:reload", `{}`, nil},
}

// opening is a bay that is open on weekdays.
const opening = `{"zone": "Europe/Berlin", "week": [
  {"day": "WEEKDAY_MONDAY", "from_min": 480, "to_min": 1020}, {"day": "WEEKDAY_TUESDAY", "from_min": 480, "to_min": 1020},
  {"day": "WEEKDAY_WEDNESDAY", "from_min": 480, "to_min": 1020}, {"day": "WEEKDAY_THURSDAY", "from_min": 480, "to_min": 1020}]}`
