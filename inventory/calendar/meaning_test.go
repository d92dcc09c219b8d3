package calendar

import "testing"

func TestWhatEntriesMean(t *testing.T) {
	club := Club{Name: "Skarn Harbour Terns"}
	for summary, want := range map[string]Meaning{
		"Terns vs Rime Point":                {Game: true, Opponent: "Rime Point"},
		"Rime Point vs. Terns":               {Game: true, Opponent: "Rime Point", Away: true},
		"Skarn Harbour Terns @ Cold Sound":   {Game: true, Opponent: "Cold Sound", Away: true},
		"Cold Sound at Skarn Harbour":        {Game: true, Opponent: "Cold Sound"},
		"@ Rime Point":                       {Game: true, Opponent: "Rime Point", Away: true},
		"vs Rime Point":                      {Game: true, Opponent: "Rime Point"},
		"At Rime Point":                      {Game: true, Opponent: "Rime Point", Away: true},
		"Cold Sound – Terns":                 {Game: true, Opponent: "Cold Sound", Away: true},
		"Terns - St. Hallvard":               {Game: true, Opponent: "St. Hallvard"},
		"Practice":                           {Practice: true},
		"Morning skate":                      {Practice: true},
		"Team dinner":                        {},
		"Dentist at ten":                     {},
		"Rime Point vs Cold Sound":           {},
		"Terns vs Terns":                     {},
		"":                                   {},
		"vs ":                                {},
		"Training camp at Skarn Harbour":     {Practice: true},
		"Skarn Harbour Terns II v Cold Gulf": {Game: true, Opponent: "Cold Gulf"},
	} {
		if got := club.Meaning(Entry{Summary: summary}); got != want {
			t.Errorf("%q means %+v, want %+v", summary, got, want)
		}
	}
}

// Where the club names its rink, the place of a game tells home from away.
func TestThePlaceTells(t *testing.T) {
	club := Club{Name: "Skarn Harbour Terns", Home: "harbour hall"}
	for place, away := range map[string]bool{"Harbour Hall, Quay 4": false, "Rime Point Ice": true, "": false} {
		if got := club.Meaning(Entry{Summary: "Terns vs Rime Point", Location: place}); got.Away != away {
			t.Errorf("%q: away %v", place, got.Away)
		}
	}
	if got := club.Meaning(Entry{Summary: "Ice 2", Categories: []string{"Training"}}); !got.Practice {
		t.Error("a category does not tell")
	}
}
