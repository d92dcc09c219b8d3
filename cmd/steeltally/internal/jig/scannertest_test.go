package jig

import (
	"strings"
	"testing"

	"steeltally/cmd/steeltally/internal/desk"
)

func TestReportScanner(t *testing.T) {
	codes, err := desk.TestCodes()
	if err != nil || len(codes) != 3 {
		t.Fatalf("%d codes, %v", len(codes), err)
	}
	matrix, qr, bars := codes[0].Text, codes[1].Text, codes[2].Text
	enter := []string{"Enter"}
	heard := func(texts ...string) (all []Heard) {
		for _, text := range texts {
			all = append(all, Heard{Typed: text, Ends: enter})
		}
		return all
	}
	const usable, set, more = "can be used as it is", "has to be set", "not all three"
	for name, c := range map[string]struct {
		heard   []Heard
		verdict string
		says    string
	}{
		"as it shall be":       {heard(matrix, qr, bars), usable, "ends a code with Enter"},
		"in any order":         {heard(bars, qr, matrix), usable, "ends a code with Enter"},
		"small letters":        {heard(matrix, strings.ToLower(qr), bars), usable, "small letters"},
		"identifiers":          {heard("]d1"+matrix, "]Q1"+qr, "]C0"+bars), usable, "identifier (]C0) first: taken off"},
		"two ends":             {[]Heard{{Typed: matrix, Ends: []string{"Enter", "Enter"}}, {Typed: qr, Ends: enter}, {Typed: bars, Ends: enter}}, usable, "Enter and Enter: taken for one"},
		"a Tab":                {[]Heard{{Typed: matrix, Ends: []string{"Tab"}}, {Typed: qr, Ends: enter}, {Typed: bars, Ends: enter}}, usable, "with Tab"},
		"French keys":          {heard(`à&é"'(-è_ç`, qr, bars), set, "0 as à, 1 as &"},
		"German letters":       {heard(matrix, strings.NewReplacer("Y", "Z", "Z", "Y").Replace(qr), bars), set, "Y as Z, Z as Y"},
		"read by place":        {[]Heard{{Typed: `à&é"'(-è_ç`, Placed: matrix, Ends: enter}, {Typed: qr, Placed: qr, Ends: enter}, {Typed: bars, Ends: enter}}, set, "by their place"},
		"a prefix":             {heard("xy"+matrix, qr, bars+"!"), set, `types "xy" before a code and "" behind it`},
		"too fast":             {heard(matrix[:6], qr, bars), set, "6 of 10 characters came"},
		"Enter before":         {[]Heard{{Typed: matrix, Ends: enter, Lead: true}, {Typed: qr, Ends: enter}, {Typed: bars, Ends: enter}}, set, "Enter before a code"},
		"bars only":            {heard(bars), more, "not scanned: QR"},
		"nothing":              {nil, "", ""},
		"control characters":   {heard("\x1b[31m"+matrix, qr, bars), set, "·[31m"},
		"something quite else": {heard("4006381333931"), set, "another keyboard layout"},
	} {
		report := ReportScanner(codes, c.heard)
		var said strings.Builder
		for _, finding := range report.Findings {
			said.WriteString(finding.Text + "\n" + finding.Hint + "\n")
		}
		if !strings.Contains(report.Verdict, c.verdict) || report.Verdict == "" != (c.verdict == "") || !strings.Contains(said.String(), c.says) {
			t.Errorf("%s: %s: %s", name, report.Verdict, &said)
		}
	}
}
