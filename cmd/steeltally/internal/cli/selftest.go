package cli

import (
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
)

// selfTest draws three codes, one after the other, and says what the scanner did with them
// and what it has to be set to.
func (a *app) selfTest() error {
	if a.json {
		return usage("the scanner's test talks to a person: leave --json out")
	}
	codes, err := desk.TestCodes()
	if err != nil {
		return err
	}
	defer a.tabEnds()()
	heard := a.hear(codes)
	report := jig.ReportScanner(codes, heard)
	if report.Verdict == "" {
		a.voice.say("nothing was scanned")
		return nil
	}
	a.voice.say("%s", report.Verdict)
	for _, finding := range report.Findings {
		a.voice.say("  %s", finding.Text)
		if finding.Hint != "" {
			a.voice.say("    %s", finding.Hint)
		}
	}
	return nil
}

// hear reads a line for each code. What more ends the last one is known when the line after
// it comes.
func (a *app) hear(codes []desk.TestCode) []jig.Heard {
	var heard []jig.Heard
	input := a.answers()
	for i := 0; i <= len(codes); i++ {
		if i < len(codes) {
			a.drawCode(codes[i])
			a.voice.ask("scan it (%d of %d; q ends)> ", i+1, len(codes))
		} else {
			a.voice.ask("\nnow press Enter> ")
		}
		more := input.next()
		for n := len(heard) - 1; n >= 0 && input.rests > 0; input.rests-- {
			heard[n].Ends = append(heard[n].Ends, "Enter")
		}
		if !more || input.text == "q" {
			break
		}
		if i < len(codes) && input.text != "" {
			heard = append(heard, jig.Heard{Typed: input.text, Ends: []string{endOf(input.tabbed)}})
		}
	}
	return heard
}

func endOf(tabbed bool) string {
	if tabbed {
		return "Tab"
	}
	return "Enter"
}

func (a *app) drawCode(code desk.TestCode) {
	a.voice.say("%s", code.Title)
	if a.world.Interactive {
		a.voice.say("%s", strings.Join(code.Blocks(), "\n"))
	}
}
