package desk

import (
	"errors"
	"image"

	"steeltally/inventory"
	"steeltally/labels"
	"steeltally/labels/grade"
	"steeltally/labels/png"
	"steeltally/labels/reader"
)

// GradeStandard is the standard whose parameters and thresholds grades go by.
const GradeStandard = grade.Edition

// SymbolGrade is how well a symbol is printed, as far as a picture can show it.
type SymbolGrade struct {
	Symbology  string            `json:"symbology"`
	Text       string            `json:"text,omitempty"`
	Overall    *int              `json:"overall,omitempty"`    // 4 to 0, the lowest of all parameters; nil: not graded
	Letter     string            `json:"letter,omitempty"`     // A to D, or F
	NotGraded  string            `json:"not_graded,omitempty"` // why there is no grade, and
	Expected   string            `json:"expected,omitempty"`   // what a print like the simulated one would get
	Parameters []GradedParameter `json:"parameters,omitempty"`
	Problem    string            `json:"problem,omitempty"` // why it could not be graded
}

// GradedParameter is one measured property; limits are the values for A, B, C and D.
type GradedParameter struct {
	Name   string    `json:"name"`
	Value  float64   `json:"value"`
	Level  int       `json:"level"`
	Letter string    `json:"letter"`
	Limits []float64 `json:"limits,omitempty"`
}

// Assumed is how a printer is assumed to print.
type Assumed struct {
	Gain float64 // dots that each dark edge moves outwards
	Blur float64 // standard deviation of the blur of edges, dots
}

// UsualPrint is the print that is assumed unless told otherwise.
func UsualPrint() Assumed {
	usual := grade.UsualPrint()
	return Assumed{usual.Gain, usual.Blur}
}

// GradedTag is a tag with the grades of its symbols.
type GradedTag struct {
	Number   inventory.Number `json:"number"`
	Template string           `json:"template"`
	Symbols  []SymbolGrade    `json:"symbols"`
}

// Grading is what simulated prints of some tags come to. It is indicative.
type Grading struct {
	Standard   string      `json:"standard"`
	Indicative bool        `json:"indicative"` // always: a picture has no calibrated light
	DPI        int         `json:"dpi"`
	Assumed    string      `json:"simulated_print"` // in words
	Tags       []GradedTag `json:"tags"`
}

// GradeTags lays out the tags of a job and grades a simulated print of each: a perfect
// drawing proves nothing.
func (d *Desk) GradeTags(job TagJob, assumed Assumed) (Grading, error) {
	work, err := d.tagWork(job)
	if err != nil {
		return Grading{}, err
	}
	if err := work.layAll(d); err != nil {
		return Grading{}, err
	}
	print := grade.UsualPrint()
	print.Gain, print.Blur = assumed.Gain, assumed.Blur
	grading := Grading{Standard: GradeStandard, Indicative: true, DPI: int(work.job.DPI), Assumed: print.String()}
	for i, page := range work.inOrder() {
		tag := GradedTag{Number: work.printed.Each[i].Number, Template: work.printed.Each[i].Template}
		if tag.Symbols, err = gradePage(page, print); err != nil {
			return grading, err
		}
		grading.Tags = append(grading.Tags, tag)
	}
	return grading, nil
}

func gradePage(page labels.Page, print grade.Print) ([]SymbolGrade, error) {
	drawing, err := png.Draw(page)
	if err != nil {
		return nil, err
	}
	var grades []SymbolGrade
	for _, placed := range page.Symbols {
		s, area := placed.Choice.Symbol, placed.Modules()
		at := image.Rect(int(area.X), int(area.Y), int(area.Right()), int(area.Bottom()))
		report, err := grade.Simulated(drawing, grade.Drawn{Symbology: s.Symbology, Area: at, Columns: s.Columns, Rows: s.Rows}, print)
		if errors.Is(err, grade.ErrPrint) {
			return nil, &inventory.BadValue{Reason: err.Error()}
		}
		simulated := gradeOf(s.Symbology.Title(), report, err)
		if err == nil {
			simulated.NotGraded, simulated.Expected = "nothing was printed and read back", simulated.Letter
		}
		simulated.Overall, simulated.Letter = nil, ""
		grades = append(grades, simulated)
	}
	return grades, nil
}

// gradeOf puts a report into the desk's words.
func gradeOf(symbology string, report grade.Report, err error) SymbolGrade {
	overall := int(report.Overall)
	g := SymbolGrade{Symbology: symbology, Text: report.Text, Overall: &overall, Letter: report.Overall.Letter()}
	if err != nil {
		g.Problem = err.Error()
		return g
	}
	for _, p := range report.Parameters {
		parameter := GradedParameter{Name: p.Name, Value: p.Value, Level: int(p.Level), Letter: p.Level.Letter()}
		if limits, graded := grade.Thresholds(p.Name); graded {
			parameter.Limits = limits[:]
		}
		g.Parameters = append(g.Parameters, parameter)
	}
	return g
}

// Grade grades the symbols of every tag in the picture.
func (p *Photograph) Grade() {
	for i := range p.Tags {
		tag := &p.Tags[i]
		for _, symbol := range tag.symbols {
			tag.Grades = append(tag.Grades, gradeSeen(p.Picture, symbol))
		}
	}
}

func gradeSeen(picture image.Image, symbol reader.Found) SymbolGrade {
	report, err := grade.Measure(picture, grade.Of(symbol))
	return gradeOf(symbol.Symbology.Title(), report, err)
}
