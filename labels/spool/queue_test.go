package spool

import (
	"errors"
	"testing"

	"steeltally/geometry"
)

// What lpstat 2.4.2 says of a queue in each state, as it was seen.
func TestStateOfQueues(t *testing.T) {
	cases := []struct {
		said   string
		cause  Cause
		detail string
	}{
		{"printer bench is idle.  enabled since Thu Nov 27 09:23:43 2025\nbench accepting requests since Thu Nov 27 09:23:43 2025\n", "", ""},
		{"printer bench now printing bench-3.  enabled since Thu Nov 27 09:23:43 2025\nbench accepting requests since Thu Nov 27 09:23:43 2025\n", "", ""},
		{"printer bench disabled since Thu Nov 27 09:23:43 2025 -\n\tout of paper\nbench accepting requests since Thu Nov 27 09:23:43 2025\n", Stopped, "out of paper"},
		{"printer bench disabled since Thu Nov 27 09:23:43 2025 -\n\treason unknown\nbench accepting requests since Thu Nov 27 09:23:43 2025\n", Stopped, ""},
		{"printer bench is idle.  enabled since Thu Nov 27 09:23:43 2025\n\tRejecting Jobs\nbench not accepting requests since Thu Nov 27 09:23:43 2025 -\n\tRejecting Jobs\n", Refusing, ""},
		{"printer bench2 is idle.  enabled since Thu Nov 27 09:23:43 2025\n", Unclear, "printer bench2 is idle. enabled since Thu Nov 27 09:23:43 2025"},
		{"", Unclear, ""},
	}
	for _, c := range cases {
		err := stateIn("bench", c.said)
		var refused *Refused
		if c.cause == "" {
			if err != nil {
				t.Errorf("%q: %v", c.said, err)
			}
			continue
		}
		if !errors.As(err, &refused) || refused.Cause != c.cause || refused.Detail != c.detail {
			t.Errorf("%q: %#v", c.said, err)
			continue
		}
		if refused.Remedy() == "" || refused.Error() == "" {
			t.Errorf("%s says nothing", c.cause)
		}
	}
}

func TestMedia(t *testing.T) {
	for _, c := range []struct {
		width, height geometry.Millimetre
		want          string
	}{
		{210, 297, "iso_a4_210x297mm"}, {215.9, 279.4, "na_letter_8.5x11in"}, {105, 148, "iso_a6_105x148mm"},
		{70, 35, "Custom.70x35mm"}, {42.5, 6, "Custom.42.5x6mm"}, {25.4, 12.7, "Custom.25.4x12.7mm"},
	} {
		if got := Media(c.width, c.height); got != c.want {
			t.Errorf("%v x %v: %s, want %s", c.width, c.height, got, c.want)
		}
	}
}
