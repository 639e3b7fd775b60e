package cli

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/grpc/codes"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// vehicles is the group of commands about vehicles that come back.
func (p *program) vehicles() *cobra.Command {
	return group("vehicle", "Keep vehicles that come back, and what all visits took off them",
		"A vehicle's record says what the shop calls it and what is known of its paint; it needs nothing about a person. Its jobs\n"+
			"refer to it, and the film they take adds up over its life.",
		p.newVehicle(), p.listVehicles(), p.showVehicle())
}

// vehicleFlags are what a vehicle's record may say.
type vehicleFlags struct {
	id, size, shade, softness, system, notes string
	builtYear                                int32
	hazeProne                                bool
}

func (p *program) newVehicle() *cobra.Command {
	var f vehicleFlags
	var k kept
	cmd := &cobra.Command{
		Use:     "new LABEL",
		Short:   "Make the record of a vehicle",
		Example: "  glossladder vehicle new \"dark blue estate\" --id blue-estate --size medium --built-year 2021 --shade dark --softness soft",
		Args:    oneNamed("label, in quotes if it has spaces"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			vehicle, err := f.record(cmd, args[0])
			if err != nil {
				return err
			}
			var made *glossladderv1.VehicleRecord
			err = p.record(cmd.Context(), &k, func(ctx context.Context, keeper glossladderv1.JobServiceClient) (err error) {
				made, err = keeper.CreateVehicle(ctx, &glossladderv1.CreateVehicleRequest{Vehicle: vehicle, VehicleId: f.id, RequestId: k.id()})
				return err
			})
			if err != nil {
				return err
			}
			if p.asJSON() {
				return p.json(made)
			}
			fmt.Fprintf(p.out, "Vehicle %s is on record.\nNext: glossladder job new %s\n", idOf(made.GetName()), idOf(made.GetName()))
			return nil
		}),
	}
	f.flags(cmd)
	k.once(cmd)
	p.keeps(cmd)
	return cmd
}

func (f *vehicleFlags) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.id, "id", "", "the last part of its name: small letters, digits and single hyphens (left out: one is made up)")
	cmd.Flags().StringVar(&f.size, "size", "", "how much vehicle it is: "+wordList(glossladderv1.VehicleSize(0)))
	cmd.Flags().Int32Var(&f.builtYear, "built-year", 0, "year it was built")
	cmd.Flags().StringVar(&f.shade, "shade", "", "how dark its paint is: "+wordList(glossladderv1.Shade(0)))
	cmd.Flags().StringVar(&f.softness, "softness", "", "how readily its paint marks: "+wordList(glossladderv1.Softness(0)))
	cmd.Flags().StringVar(&f.system, "system", "", "the outermost layer of its paint: "+wordList(glossladderv1.PaintSystem(0)))
	cmd.Flags().BoolVar(&f.hazeProne, "haze-prone", false, "its paint dulls under a step that should not dull it")
	cmd.Flags().StringVar(&f.notes, "notes", "", "for the shop's own use; no personal data")
}

// wordList is the words of a closed list, for help.
func wordList(of protoreflect.Enum) string {
	return strings.Join(vocabulary.Words(of.Descriptor()), ", ")
}

// record makes the record that the flags tell, with every word of theirs that is wrong.
func (f *vehicleFlags) record(cmd *cobra.Command, label string) (*glossladderv1.VehicleRecord, error) {
	out := &glossladderv1.VehicleRecord{Label: label, Notes: f.notes}
	paint := &glossladderv1.Paint{}
	for _, w := range []struct {
		flag, word string
		enum       protoreflect.EnumDescriptor
		set        func(protoreflect.EnumNumber)
	}{
		{"size", f.size, out.GetSize().Descriptor(), func(n protoreflect.EnumNumber) { out.Size = glossladderv1.VehicleSize(n) }},
		{"shade", f.shade, paint.GetShade().Descriptor(), func(n protoreflect.EnumNumber) { paint.Shade = glossladderv1.Shade(n) }},
		{"softness", f.softness, paint.GetSoftness().Descriptor(), func(n protoreflect.EnumNumber) { paint.Softness = glossladderv1.Softness(n) }},
		{"system", f.system, paint.GetSystem().Descriptor(), func(n protoreflect.EnumNumber) { paint.System = glossladderv1.PaintSystem(n) }},
	} {
		if w.word == "" {
			continue
		}
		number, err := intake.Word(w.word, w.enum)
		if err != nil {
			return nil, &usageError{"--" + w.flag + ": " + err.Error()}
		}
		w.set(number)
	}
	if cmd.Flags().Changed("haze-prone") {
		paint.HazeProne = &f.hazeProne
	}
	if cmd.Flags().Changed("built-year") {
		out.BuiltYear = &f.builtYear
	}
	if proto.Size(paint) > 0 {
		out.Paint = paint
	}
	return out, nil
}

func (p *program) listVehicles() *cobra.Command {
	var label string
	cmd := &cobra.Command{
		Use:   "list",
		Short: "List vehicles by label",
		Args:  noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			all := &glossladderv1.ListVehiclesResponse{}
			err := p.jobs(cmd.Context(), func(ctx context.Context, keeper glossladderv1.JobServiceClient) error {
				for token, more := "", true; more; more = token != "" {
					page, err := keeper.ListVehicles(ctx, &glossladderv1.ListVehiclesRequest{PageSize: fullPage, PageToken: token, LabelPrefix: label})
					if err != nil {
						return err
					}
					all.Vehicles = append(all.Vehicles, page.GetVehicles()...)
					token = page.GetNextPageToken()
				}
				return nil
			})
			if err != nil {
				return err
			}
			if p.asJSON() {
				return p.json(all)
			}
			return page.Vehicles(p.out, all.GetVehicles(), p.style())
		}),
	}
	cmd.Flags().StringVar(&label, "label", "", "only those whose label begins so")
	p.keeps(cmd)
	return cmd
}

// fullPage is the most that one page of a list holds.
const fullPage = 1000

func (p *program) showVehicle() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "show VEHICLE",
		Short: "Show a vehicle, its jobs, and the film that all of them took off it",
		Args:  oneNamed("vehicle"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			name := named("vehicles", args[0])
			var vehicle *glossladderv1.VehicleRecord
			var film *glossladderv1.VehicleFilm
			var jobs *glossladderv1.ListJobsResponse
			err := p.jobs(cmd.Context(), func(ctx context.Context, keeper glossladderv1.JobServiceClient) (err error) {
				if vehicle, err = keeper.GetVehicle(ctx, &glossladderv1.GetVehicleRequest{Name: name}); err != nil {
					return err
				}
				if film, err = keeper.GetVehicleFilm(ctx, &glossladderv1.GetVehicleFilmRequest{Name: name}); err != nil {
					return err
				}
				jobs, err = keeper.ListJobs(ctx, &glossladderv1.ListJobsRequest{Vehicle: name, PageSize: fullPage})
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder vehicle list")
			}
			if p.asJSON() {
				return p.jsonParts(part{"vehicle", vehicle}, part{"film", film}, part{"jobs", jobs})
			}
			return page.Vehicle(p.out, vehicle, film, jobs.GetJobs(), zone(), p.style())
		}),
	}
	p.keeps(cmd)
	return cmd
}

// unknownTo adds to a name that is not on record how to find the names that are.
func (p *program) unknownTo(err error, list string) error {
	if st, ok := statusIn(err); ok && st.Code() == codes.NotFound && !strings.Contains(st.Message(), "no event") {
		return fmt.Errorf("%s; see %s", p.statusWords(st), list)
	}
	return err
}
