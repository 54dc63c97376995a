using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class RegisterSyncs : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "register_rows",
                columns: table => new
                {
                    source_name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    asset_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    row_hash = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_register_rows", x => new { x.source_name, x.asset_id });
                });

            migrationBuilder.CreateTable(
                name: "register_sources",
                columns: table => new
                {
                    name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    settings = table.Column<string>(type: "jsonb", nullable: false),
                    settings_hash = table.Column<string>(type: "text", nullable: false),
                    is_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    every_minutes = table.Column<int>(type: "integer", nullable: true),
                    is_from_configuration = table.Column<bool>(type: "boolean", nullable: false),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_register_sources", x => x.name);
                    table.CheckConstraint("ck_register_sources_every_minutes", "every_minutes > 0");
                    table.CheckConstraint("ck_register_sources_name", "length(name) BETWEEN 1 AND 100");
                });

            migrationBuilder.CreateTable(
                name: "register_syncs",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityAlwaysColumn),
                    source_name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    state = table.Column<string>(type: "text", nullable: false),
                    requested_by = table.Column<string>(type: "text", nullable: false),
                    requested_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    is_full_pass = table.Column<bool>(type: "boolean", nullable: false),
                    accepts_missing = table.Column<bool>(type: "boolean", nullable: false),
                    started_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    ended_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    try_again_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    attempts = table.Column<int>(type: "integer", nullable: false),
                    claimed_by = table.Column<Guid>(type: "uuid", nullable: true),
                    claimed_until = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    settings_hash = table.Column<string>(type: "text", nullable: true),
                    position = table.Column<string>(type: "text", nullable: true),
                    rows = table.Column<long>(type: "bigint", nullable: false),
                    announced = table.Column<long>(type: "bigint", nullable: true),
                    created = table.Column<long>(type: "bigint", nullable: false),
                    changed = table.Column<long>(type: "bigint", nullable: false),
                    unchanged = table.Column<long>(type: "bigint", nullable: false),
                    refused = table.Column<long>(type: "bigint", nullable: false),
                    repeated = table.Column<long>(type: "bigint", nullable: false),
                    brought_back = table.Column<long>(type: "bigint", nullable: false),
                    missing = table.Column<long>(type: "bigint", nullable: true),
                    retired = table.Column<long>(type: "bigint", nullable: false),
                    reason_code = table.Column<string>(type: "text", nullable: true),
                    reason_detail = table.Column<string>(type: "text", nullable: true),
                    notes = table.Column<string>(type: "jsonb", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_register_syncs", x => x.id);
                    table.CheckConstraint("ck_register_syncs_state", "state IN ('waiting', 'running', 'done', 'held', 'failed', 'cancelled')");
                });

            migrationBuilder.CreateTable(
                name: "register_sync_assets",
                columns: table => new
                {
                    sync_id = table.Column<long>(type: "bigint", nullable: false),
                    asset_id = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_register_sync_assets", x => new { x.sync_id, x.asset_id });
                });

            migrationBuilder.CreateTable(
                name: "rejected_rows",
                columns: table => new
                {
                    sync_id = table.Column<long>(type: "bigint", nullable: false),
                    number = table.Column<long>(type: "bigint", nullable: false),
                    place = table.Column<string>(type: "text", nullable: false),
                    asset_id = table.Column<string>(type: "text", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: false),
                    problems = table.Column<string>(type: "jsonb", nullable: false),
                    original_text = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_rejected_rows", x => new { x.sync_id, x.number });
                    table.ForeignKey(
                        name: "fk_rejected_rows_register_syncs_sync_id",
                        column: x => x.sync_id,
                        principalTable: "register_syncs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_register_rows_source_name_row_hash",
                table: "register_rows",
                columns: new[] { "source_name", "row_hash" });

            migrationBuilder.CreateIndex(
                name: "ix_register_syncs_open",
                table: "register_syncs",
                column: "source_name",
                unique: true,
                filter: "state IN ('waiting', 'running')");

            migrationBuilder.CreateIndex(
                name: "ix_register_syncs_source_name_id",
                table: "register_syncs",
                columns: new[] { "source_name", "id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "register_rows");

            migrationBuilder.DropTable(
                name: "register_sources");

            migrationBuilder.DropTable(
                name: "register_sync_assets");

            migrationBuilder.DropTable(
                name: "rejected_rows");

            migrationBuilder.DropTable(
                name: "register_syncs");
        }
    }
}
