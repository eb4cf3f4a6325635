package main

import (
	"encoding/json"
	"os"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/prove"
)

func main() {
	var dir string
	for i, a := range os.Args {
		if a == "--book" {
			dir = os.Args[i+1]
		}
	}
	b, err := book.Read(dir)
	if err != nil {
		panic(err)
	}
	l := tank.Build(b)
	d := model.NewDesign(l)
	type pt struct {
		Tank    int     `json:"tank"`
		To      string  `json:"to_date"`
		Change  float64 `json:"change_pct"`
		Odds    float64 `json:"odds_changed"`
		Verdict string  `json:"verdict"`
	}
	type job struct {
		ID   string  `json:"id"`
		Low  float64 `json:"low_pct"`
		High float64 `json:"high_pct"`
		Ch   float64 `json:"change_pct"`
		Path []pt    `json:"path"`
	}
	var jobs []job
	for _, p := range prove.All(l, d) {
		for _, s := range l.Tanks[p.Tank].Work {
			j := job{ID: l.Jobs[s.Job].ID}
			if len(os.Args) > 5 && j.ID != "the-job" {
				continue
			}
			for _, st := range p.Path {
				j.Path = append(j.Path, pt{st.Tank, l.Tanks[st.Tank].Closes.Date.Format("2006-01-02"), st.Change, st.Odds, st.Verdict})
				j.Low, j.High, j.Ch = st.Low, st.High, st.Change
			}
			jobs = append(jobs, j)
		}
	}
	json.NewEncoder(os.Stdout).Encode(map[string]any{"jobs": jobs})
}
