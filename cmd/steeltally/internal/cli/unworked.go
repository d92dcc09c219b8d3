package cli

import (
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// sayUnworked tells of whom something could not be worked out; the others' lines stand.
func (a *app) sayUnworked(list []inventory.Unworked) {
	if len(list) == 0 {
		return
	}
	a.voice.say("COULD NOT BE WORKED OUT")
	for _, u := range list {
		a.voice.say("%s: %s", u.Whose(), u.Say())
		a.voice.say("      %s", desk.UnworkedHint(u))
	}
	a.voice.say("")
}

// unworkedTold is a player of whom something could not be worked out, for programs.
type unworkedTold struct {
	Error   string           `json:"error"`
	Hint    string           `json:"hint"`
	Name    string           `json:"name"`
	Player  inventory.Number `json:"player"`
	Sweater int              `json:"sweater"`
}

func unworked(list []inventory.Unworked) []any {
	told := []any{}
	for _, u := range list {
		told = append(told, unworkedTold{u.Say(), desk.UnworkedHint(u), u.Name, u.About, u.Sweater})
	}
	return told
}
