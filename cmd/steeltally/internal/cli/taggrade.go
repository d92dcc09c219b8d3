package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

// tagQuestions are what can be asked of tags without bringing them out.
type tagQuestions struct {
	explain bool
	grade   bool
	assumed desk.Assumed
}

func (q *tagQuestions) addFlags(cmd *cobra.Command) {
	q.assumed = desk.UsualPrint()
	flags := cmd.Flags()
	flags.BoolVar(&q.explain, "explain", false, "say which symbols could be on the tag, and why these are")
	flags.BoolVar(&q.grade, "grade", false, "what a print of each symbol would come to by "+desk.GradeStandard+"; no grade, which only a real print gets")
	flags.Float64Var(&q.assumed.Gain, "gain", q.assumed.Gain, "with --grade: dots that dark edges move outwards")
	flags.Float64Var(&q.assumed.Blur, "blur", q.assumed.Blur, "with --grade: blur of edges in dots, a standard deviation")
}

func (q *tagQuestions) asked() bool { return q.explain || q.grade }

// answer answers what was asked.
func (q *tagQuestions) answer(a *app, d *desk.Desk, job desk.TagJob) error {
	if q.grade {
		grading, err := d.GradeTags(job, q.assumed)
		if err != nil {
			return err
		}
		return a.sayGrading(grading)
	}
	tags, err := d.ExplainTags(job)
	if err != nil {
		return err
	}
	return a.sayReasons(tags)
}

func (a *app) sayReasons(tags []desk.ExplainedTag) error {
	for _, tag := range tags {
		a.voice.say("tag %s of %s at %d dpi", tag.Template, tag.Number.Short(), tag.DPI)
		for _, s := range tag.Symbols {
			a.voice.say("  %s of %.2f mm a module, says %s", s.Symbology, float64(s.Module), s.Text)
			for _, reason := range s.Reasons {
				a.voice.say("    %s", reason)
			}
		}
	}
	return a.voice.told(struct {
		Tags []desk.ExplainedTag `json:"tags"`
	}{tags})
}

// indicative is said of every grade.
const indicative = "indicative: a picture has no calibrated light, aperture or angle; a verifier decides"

func (a *app) sayGrading(g desk.Grading) error {
	a.voice.say("simulated print at %d dpi: %s", g.DPI, g.Assumed)
	for _, tag := range g.Tags {
		a.voice.say("\ntag %s of %s", tag.Template, tag.Number.Short())
		a.saySymbolGrades(tag.Symbols)
	}
	a.voice.say("\nby %s; %s", desk.GradeStandard, indicative)
	return a.voice.told(g)
}

func (a *app) saySymbolGrades(grades []desk.SymbolGrade) {
	for _, g := range grades {
		if g.Problem != "" {
			a.voice.say("%s: %s", g.Symbology, g.Problem)
			continue
		}
		if g.NotGraded != "" {
			a.voice.say("%s: not graded, %s; to be expected: %s", g.Symbology, g.NotGraded, g.Expected)
		} else {
			a.voice.say("%s: %s", g.Symbology, g.Letter)
		}
		var rows [][]string
		for _, p := range g.Parameters {
			rows = append(rows, []string{"  " + p.Name, sayShare(p.Name, p.Value), p.Letter, limits(p)})
		}
		a.voice.rows(rows)
	}
}

// sayShare writes a share in percent, and an offset of the grid in modules.
func sayShare(name string, value float64) string {
	if strings.HasSuffix(name, "uniformity") {
		return fmt.Sprintf("%.3f", value)
	}
	return fmt.Sprintf("%.0f %%", 100*value)
}

// limits writes the thresholds for A, B, C and D: "A 70 %, B 55 %, C 40 %, D 20 %".
func limits(p desk.GradedParameter) string {
	var parts []string
	for i, limit := range p.Limits {
		parts = append(parts, string("ABCD"[i])+" "+sayShare(p.Name, limit))
	}
	return strings.Join(parts, ", ")
}
