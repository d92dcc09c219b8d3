package cli

import (
	"math"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// standingWords are the standings for programs.
var standingWords = map[desk.Standing]string{
	desk.DoNotSkate: "do-not-skate", desk.DueNow: "due-now", desk.ComingUp: "coming-up",
	desk.NeedsMeasure: "measure-first", desk.NeedsMore: "can't-say", desk.SaidNo: "said-no",
}

func dueObject(list desk.DueList, zone *time.Location) map[string]any {
	object := map[string]any{
		"at": list.At, "players": append(dueObjects(list.Players, zone), unworkedObjects(list.Unworked)...), "others": dueObjects(list.Others, zone),
		"forecasts_checked": list.Checked, "forecasts_held": list.Held,
		"schedule_until": isoDay(list.Until),
	}
	if len(list.Aside.Entries) > 0 {
		object["unsafe_aside"] = list.Aside.Entries
	}
	if len(list.Notices) > 0 {
		object["notices"] = list.Notices
	}
	return object
}

func dueObjects(list []desk.Due, zone *time.Location) []map[string]any {
	objects := []map[string]any{}
	for _, due := range list {
		objects = append(objects, dueOne(due, zone))
	}
	return objects
}

func dueOne(due desk.Due, zone *time.Location) map[string]any {
	object := map[string]any{
		"sweater": due.Sweater, "player": due.Player, "name": due.Name, "pair": due.Role,
		"set": due.Letter, "set_number": due.Set, "standing": standingWords[due.Standing],
		"change_height_mm": due.Change, "heights": due.Heights, "earlier_runners": due.Earlier,
		"passes_left": nil, "dates": nil, "sessions_left": nil, "sides": sideObjects(due, zone),
		"ready_sets": readyObjects(due), "damages": due.Unsafe,
	}
	if due.Passes != nil {
		object["passes_left"] = []float64{tenth(due.Passes.Low), tenth(due.Passes.Middle), tenth(due.Passes.High)}
		object["measure"] = map[string]any{"in_passes": tenth(due.Measure.InPasses), "on": isoDay(due.Measure.On)}
	}
	if due.Dates != nil {
		object["dates"] = []any{isoDay(due.Dates.Low), isoDay(due.Dates.Middle), isoDay(due.Dates.High)}
		object["sessions_left"] = []int{due.Sessions.Low, due.Sessions.Middle, due.Sessions.High}
	}
	if due.CannotSay != "" {
		object["cannot_say"], object["to_do"] = due.CannotSay, due.ToDo
	}
	if no := due.Refusal; no != nil {
		object["refusal"] = map[string]any{
			"asked_on": isoDay(no.When.Start.In(zone)), "answer": no.Value.Answer, "review_on": isoDay(no.Value.Review.Start.In(zone)),
		}
	}
	return object
}

func sideObjects(due desk.Due, zone *time.Location) []map[string]any {
	objects := []map[string]any{}
	for _, side := range due.Sides {
		object := map[string]any{"side": side.Side, "runner": side.Runner, "reference": side.Reference, "ends_low": side.Ends}
		if side.Last != nil {
			object["height_last_mm"], object["measured_on"] = side.Last.Height, isoDay(side.Last.When.Start.In(zone))
		}
		if side.Loss != 0 {
			object["height_now_mm"], object["loss_mm_per_pass"], object["passes_left"] = side.Height, side.Loss, tenth(side.Left)
		}
		var doubts []map[string]any
		for _, doubt := range side.Doubts {
			doubts = append(doubts, map[string]any{
				"height_mm": doubt.Height, "on": isoDay(doubt.When.Start.In(zone)), "measure_again": doubt.Again,
			})
		}
		object["heights_in_doubt"] = doubts
		if side.CannotSay != "" {
			object["cannot_say"] = side.CannotSay
		}
		objects = append(objects, object)
	}
	return objects
}

func readyObjects(due desk.Due) []map[string]any {
	objects := []map[string]any{}
	for _, set := range due.Ready {
		objects = append(objects, map[string]any{"set": set.Letter, "number": set.Set, "ground": set.Ground, "place": set.Place.String()})
	}
	return objects
}

// isoDay is a day for programs; nil where there is none.
func isoDay(day time.Time) any {
	if day.IsZero() {
		return nil
	}
	return day.Format("2006-01-02")
}

// tenth rounds passes: more digits would pretend to know.
func tenth(passes float64) float64 { return math.Round(10*passes) / 10 }
