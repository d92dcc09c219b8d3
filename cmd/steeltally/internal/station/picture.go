package station

import (
	"fmt"
	"net/http"

	"steeltally/cmd/steeltally/internal/desk"
)

// picture reads the tags in a picture and gives them to the window as lines to send: one
// tag is a scan, more than one are a bin or a trunk's load.
func (s *Station) picture(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostPicture)
	found, err := desk.ReadPicture(r.Context(), r.Body, "the picture")
	out := answer{Tone: toneWrong}
	switch {
	case err != nil:
		out.Told = s.render("told", wrong(told{}, err))
	case len(found) == 0:
		out.Told = s.render("told", told{Tone: toneWrong, Lines: []string{"no tag was found in the picture"}})
	default:
		out.Tone, out.Feed = toneShown, found
		out.Told = s.render("told", told{Tone: toneShown, Lines: []string{fmt.Sprintf("%s found in the picture", desk.SayCount(len(found), "tag"))}})
	}
	writeJSON(w, out)
}
