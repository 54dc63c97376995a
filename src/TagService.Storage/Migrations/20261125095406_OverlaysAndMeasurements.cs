using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class OverlaysAndMeasurements : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "range_calibrations",
                columns: table => new
                {
                    tag_class_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    material_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    observations = table.Column<int>(type: "integer", nullable: false),
                    mean_shift_db = table.Column<double>(type: "double precision", nullable: false),
                    sigma_db = table.Column<double>(type: "double precision", nullable: false),
                    measured = table.Column<int>(type: "integer", nullable: false),
                    answers_at = table.Column<int>(type: "integer", nullable: false),
                    silent_at = table.Column<int>(type: "integer", nullable: false),
                    failed_check = table.Column<int>(type: "integer", nullable: false),
                    basis = table.Column<string>(type: "text", nullable: false),
                    computed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_range_calibrations", x => new { x.tag_class_id, x.material_id });
                });

            migrationBuilder.CreateTable(
                name: "range_measurement_batches",
                columns: table => new
                {
                    idempotency_key = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    content_hash = table.Column<string>(type: "text", nullable: false),
                    measurements = table.Column<int>(type: "integer", nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_range_measurement_batches", x => x.idempotency_key);
                });

            migrationBuilder.CreateTable(
                name: "range_measurements",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityAlwaysColumn),
                    tag_class_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    material_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    measurement = table.Column<string>(type: "jsonb", nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_range_measurements", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "tag_class_overlays",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    overlay = table.Column<string>(type: "jsonb", nullable: false),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tag_class_overlays", x => x.id);
                    table.CheckConstraint("ck_tag_class_overlays_id", "coalesce(overlay ->> 'id', '') = id AND length(id) BETWEEN 1 AND 60");
                });

            migrationBuilder.CreateIndex(
                name: "ix_range_measurements_tag_class_id_material_id_id",
                table: "range_measurements",
                columns: new[] { "tag_class_id", "material_id", "id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "range_calibrations");

            migrationBuilder.DropTable(
                name: "range_measurement_batches");

            migrationBuilder.DropTable(
                name: "range_measurements");

            migrationBuilder.DropTable(
                name: "tag_class_overlays");
        }
    }
}
