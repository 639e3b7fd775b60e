package page_test

import (
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func figures(low, likely, high float64) *glossladderv1.Span {
	return &glossladderv1.Span{Low: low, Likely: likely, High: high}
}

func euros(units int64, cents int32) *glossladderv1.Money {
	return &glossladderv1.Money{CurrencyCode: "EUR", Units: units, Nanos: cents * 10_000_000}
}

// planned is an invented plan of three panels, of which one is left alone, with bay time.
func planned() *glossladderv1.PlanJobResponse {
	const area, settings, effort = "rule area/bonnet, area.yaml:33", "rule settings/polish, settings.yaml:140", "rule effort/polish, effort.yaml:58"
	at := func(hour, minute int) *timestamppb.Timestamp {
		return timestamppb.New(time.Date(2026, 12, 1, hour, minute, 0, 0, time.UTC))
	}
	return &glossladderv1.PlanJobResponse{
		Plan: &glossladderv1.WorkPlan{
			RuleSet: "8d2df1803ba1000000000000000000000000000000000000000000000000beef",
			WorkMin: figures(95, 130, 190), StillMin: figures(40, 55, 80), WaitMin: figures(4, 5, 8), CureMin: 720,
			Panels: []*glossladderv1.PanelWork{
				{
					PanelId: "bonnet", Ladder: glossladderv1.Ladder_LADDER_POLISH, AreaM2: figures(1.2, 1.4, 1.7), AreaSource: area, Minutes: figures(30, 42, 60),
					Takes:  &glossladderv1.Removal{LowUm: 0.5, LikelyUm: 1, HighUm: 1.5},
					LeftUm: figures(0.4, 0.9, 1.4), Proven: true,
					Steps: []*glossladderv1.PanelStepWork{{Step: glossladderv1.Step_STEP_POLISH, Sections: 15, Sources: []string{area, settings, effort}}},
				},
				{
					PanelId: "wing-rear-left", Ladder: glossladderv1.Ladder_LADDER_POLISH, AreaM2: figures(0.7, 0.85, 1), Minutes: figures(18, 25, 36),
					Takes: &glossladderv1.Removal{LowUm: 0.5, LikelyUm: 1, HighUm: 1.5},
					Steps: []*glossladderv1.PanelStepWork{{Step: glossladderv1.Step_STEP_POLISH, Sections: 10}},
				},
				{
					PanelId: "roof", Ladder: glossladderv1.Ladder_LADDER_NONE, AreaM2: figures(1.4, 1.6, 1.9), Minutes: figures(1, 1.5, 2),
					Takes: &glossladderv1.Removal{}, LeftUm: figures(6.5, 6.5, 6.5), LeftAlone: "Nothing on this panel asks for a machine step.",
				},
			},
			Steps: []*glossladderv1.StepWork{{
				Step: glossladderv1.Step_STEP_POLISH, Panels: 2, Sections: 25, Minutes: figures(50, 68, 99),
				Pads: []*glossladderv1.PadUse{{PadId: "polishing-foam-large", LiquidId: "middle-polish", Pads: 2, Sections: 25, ChangeAt: []string{"wing-rear-left"}}},
			}},
			Lines: []*glossladderv1.TimeLine{
				{What: "prepare: wash, decontaminate, dry", Minutes: figures(34, 45, 68), Sources: []string{"rule visit/usual-vehicle, visit.yaml:47"}},
				{What: "polish: machine running", Minutes: figures(30, 45, 70), Sources: []string{area, settings, effort}},
				{What: "test spots", Minutes: figures(0, 0, 0)},
			},
			Materials: []*glossladderv1.MaterialLine{
				{Id: "polishing-foam-large", Kind: "pad", Quantity: 2, Unit: "pieces", Price: euros(7, 20), Source: "catalogue: a pad lasts 2.5 vehicles"},
				{Id: "middle-polish", Kind: "liquid", Quantity: 74.5, Unit: "ml", Price: euros(2, 38), Source: "catalogue: 6 ml to prime a pad, 2.5 ml for each section"},
			},
			Cost: &glossladderv1.PlanCost{
				Materials: euros(9, 58), Labour: &glossladderv1.MoneySpan{Low: euros(101, 33), Likely: euros(138, 67), High: euros(202, 67)},
				Total: &glossladderv1.MoneySpan{Low: euros(110, 91), Likely: euros(148, 25), High: euros(212, 25)}, HourlyRate: euros(64, 0),
			},
			Exposure: &glossladderv1.ExposureDay{
				Days: 1, HandsMin: 45, Vibration: &glossladderv1.VibrationExposure{
					A8Ms2: 2.45, Points: 96, Band: glossladderv1.ExposureBand_EXPOSURE_BAND_BELOW_ACTION,
					HighA8Ms2: 3.6, HighBand: glossladderv1.ExposureBand_EXPOSURE_BAND_ACTION, Split: 1, ActionMs2: 2.5, LimitMs2: 5,
				},
				Noise: &glossladderv1.NoiseExposure{
					DailyDba: 73.7, Band: glossladderv1.NoiseBand_NOISE_BAND_BELOW_LOWER_ACTION,
					LowerActionDba: 80, UpperActionDba: 85, LimitDba: 87, ExchangeDb: 3,
				},
				Cautions: []string{"Reckoned from what the catalogue declares. The employer's own assessment, the maker's instructions and local rules go before it."},
			},
			Sources: []*glossladderv1.SourceInfo{{Text: area, Reason: &glossladderv1.Reason{Because: "The bonnet of a saloon or an estate."}}, {Text: "measured"}},
			Notes:   []string{"Every panel before work: Wash it, take off what is stuck to it, and dry it."},
		},
		Bay: &glossladderv1.BayTime{
			Blocks: []*glossladderv1.BayBlock{
				{What: "prepare, inspect, try and tape", StartTime: at(8, 0), EndTime: at(8, 49)},
				{What: "polish", StartTime: at(8, 49), EndTime: at(10, 10)},
			},
			ReadyTime: at(22, 10),
		},
	}
}

// estimated is an invented estimate of a vehicle of which one panel was inspected.
func estimated() *glossladderv1.Estimate {
	const rule = "rule estimate/enhance, estimate.yaml:85"
	return &glossladderv1.Estimate{
		RuleSet: "8d2df1803ba1000000000000000000000000000000000000000000000000beef",
		Stage:   glossladderv1.EstimateStage_ESTIMATE_STAGE_PARTLY_INSPECTED, WorkMin: figures(250, 410, 900),
		Total:     &glossladderv1.MoneySpan{Low: euros(290, 0), Likely: euros(480, 10), High: euros(1010, 99)},
		Materials: euros(42, 30), LadderDoubtMin: 220,
		Panels: []*glossladderv1.EstimatedPanel{
			{
				PanelId: "bonnet", Part: glossladderv1.PanelPart_PANEL_PART_BONNET, Pieces: 1, Low: glossladderv1.Ladder_LADDER_POLISH,
				Likely: glossladderv1.Ladder_LADDER_POLISH, High: glossladderv1.Ladder_LADDER_POLISH_FINISH, Source: "rule ladder/polish, ladder.yaml:40",
			},
			{
				Part: glossladderv1.PanelPart_PANEL_PART_DOOR, Pieces: 4, Low: glossladderv1.Ladder_LADDER_FINISH,
				Likely: glossladderv1.Ladder_LADDER_POLISH, High: glossladderv1.Ladder_LADDER_POLISH_FINISH, Source: rule,
			},
			{
				Part: glossladderv1.PanelPart_PANEL_PART_ROOF, Pieces: 1, Low: glossladderv1.Ladder_LADDER_FINISH,
				Likely: glossladderv1.Ladder_LADDER_POLISH, High: glossladderv1.Ladder_LADDER_POLISH_FINISH, Source: rule,
			},
		},
		Narrows: []string{"inspect the other panels", "prove the ladders on 1 test spot"},
	}
}

// fitted is an invented answer to hours that are short.
func fitted() *glossladderv1.FitHoursResponse {
	plan := planned().GetPlan()
	plan.StillMin = nil // what fits is looked for before work begins
	out := &glossladderv1.FitHoursResponse{
		Plan: plan, ResultPct: 71.4, FullWorkMin: 190,
		FullTotal: &glossladderv1.MoneySpan{Low: euros(150, 0), Likely: euros(212, 60), High: euros(300, 0)},
		Panels: []*glossladderv1.FitPanel{
			{PanelId: "bonnet", Ladder: glossladderv1.Ladder_LADDER_POLISH, Full: glossladderv1.Ladder_LADDER_POLISH, Seen: 10, Grades: 2, FullGrades: 2},
			{
				PanelId: "roof", Ladder: glossladderv1.Ladder_LADDER_NONE, Full: glossladderv1.Ladder_LADDER_POLISH, Seen: 5, FullGrades: 2, SavesMin: 60,
				Leaves: "wash marks 3 stay near 3, not 1",
			},
		},
	}
	for i := range 12 {
		out.Curve = append(out.Curve, &glossladderv1.FitPoint{WorkMin: 60 + 12*float64(i), ResultPct: 100 * (1 - float64(11-i)*float64(11-i)/121)})
	}
	return out
}
