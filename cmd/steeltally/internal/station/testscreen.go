package station

import (
	"html/template"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
)

// testScreen is three codes to scan, and what the scanner did with them.
type testScreen struct {
	Codes  []testCode
	Report jig.ScannerReport
}

type testCode struct {
	Title string
	SVG   template.HTML
	Heard bool
}

func (s *Station) testScreen(t *talk) (drawing, error) {
	codes, err := desk.TestCodes()
	if err != nil {
		return nil, err
	}
	show := testScreen{Report: jig.ReportScanner(codes, t.Heard)}
	for i, code := range codes {
		show.Codes = append(show.Codes, testCode{code.Title, template.HTML(code.SVG()), show.Report.Heard[i]})
	}
	return s.of("scanner", show), nil
}
