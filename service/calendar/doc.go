// Package calendar writes bay time as an iCalendar file (RFC 5545) that any calendar reads. It knows nothing of jobs or paint.
package calendar
