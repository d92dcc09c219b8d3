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

// unworkedObjects are they for programs: a player's object with the error in it.
func unworkedObjects(list []inventory.Unworked) []map[string]any {
	objects := []map[string]any{}
	for _, u := range list {
		objects = append(objects, map[string]any{
			"player": u.About, "sweater": u.Sweater, "name": u.Name, "error": u.Say(), "hint": desk.UnworkedHint(u),
		})
	}
	return objects
}
